package profile

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A Mapped is a part that a profile makes of the rows in foreign_rows: all its records of one kind. Its read_rows holds
// the layout's columns as text in the layout's form, and beside them the source's row.
//
// foreign_rows has a row's id, line, found, misshapen and fields, its level, and its cells c1, c2 … as text.
type Mapped struct {
	Profile *Profile
	Records []RecordMapping
	Source  []string       // the file's own column names
	Levels  []source.Level // of the lists within lists of a JSON file; none where all rows are alike
	Serials string         // the system of a workbook's dates, or of the profile
	First   bool           // it is the part that also sets aside the rows of a wrong shape
	Params  history.Params
	used    []string // the columns of foreign_rows that the record in hand needs
}

// Statement makes read_rows from foreign_rows.
func (m *Mapped) Statement(kind *layout.Kind) (string, history.Params, error) {
	m.Params = history.Params{}
	var records []string
	for i, record := range m.Records {
		statement, err := m.recordSQL(kind, record, i+1)
		if err != nil {
			return "", nil, err
		}
		records = append(records, statement)
	}
	if m.First {
		records = append(records, misshapenSQL(kind))
	}
	return fmt.Sprintf(`create or replace temporary table read_rows as
select * %s
from (%s)
order by line, record, nth`, m.numberSQL(kind), strings.Join(records, "\nunion all\n")), m.Params, nil
}

// always are the columns of foreign_rows that every record takes along.
var always = []string{"id", "line", "level", "found", "misshapen"}

// recordSQL gives the records that one mapping makes, numbered as record. The coin is that of typedSelect.
func (m *Mapped) recordSQL(kind *layout.Kind, record RecordMapping, number int) (string, error) {
	m.used = slices.Clone(always)
	var columns, present, conditions []string
	for i, column := range kind.Columns {
		field, ok := record.Fields[column.Name]
		if !ok {
			columns = append(columns, fmt.Sprintf("null::varchar as c%d", i+1))
			continue
		}
		expression, err := m.fieldSQL(record, column, field)
		if err != nil {
			return "", err
		}
		if column.Required && field.hasNone() {
			conditions = append(conditions, fmt.Sprintf("c%d is distinct from %s", i+1, nothing))
		} else if field.hasNone() {
			expression = fmt.Sprintf("nullif(%s, %s)", expression, nothing)
		}
		columns = append(columns, fmt.Sprintf("%s as c%d", expression, i+1))
		if field.Constant == "" && field.Number == "" && !shared(kind, column.Name) {
			present = append(present, fmt.Sprintf("read_text(c%d) is not null", i+1))
		}
	}
	cells, when, err := m.whenSQL(record, present)
	if err != nil {
		return "", err
	}
	passes, err := m.testsSQL(record.setting("rows"), record.Rows)
	if err != nil {
		return "", err
	}
	group, err := m.groupSQL(record)
	if err != nil {
		return "", err
	}
	from, err := m.fromSQL(record)
	if err != nil {
		return "", err
	}
	conditions = append(conditions, "misshapen is null and passes and ("+when+")")
	inner := fmt.Sprintf("select id, line, found, misshapen, null::varchar as surplus, %d as record, row_number() over () as nth, random() as coin, %s as passes, %s as cells, %s as alike, %s %s",
		number, passes, cells, group, strings.Join(columns, ", "), from)
	if len(record.OneBy) > 0 {
		inner = withSpan(kind, inner)
	}
	made := fmt.Sprintf(`select * exclude (coin, passes, cells) from (%s)
where coin < 0 or (%s)`, inner, strings.Join(conditions, " and "))
	if len(record.OneBy) > 0 && kind.Name == "calibrations" {
		made = oneAttempt(kind, made)
	} else {
		made = "select * exclude (alike) from (" + made + ")"
	}
	return m.eachAttempt(kind, record, made), nil
}

// misshapenSQL gives the rows of a wrong shape, which make no record and are set aside once.
func misshapenSQL(kind *layout.Kind) string {
	columns := make([]string, len(kind.Columns))
	for i := range columns {
		columns[i] = fmt.Sprintf("null::varchar as c%d", i+1)
	}
	return "select id, line, found, misshapen, null::varchar as surplus, 1 as record, 0 as nth, " +
		strings.Join(columns, ", ") + " from foreign_rows where misshapen is not null"
}

// shared columns tell which job a record belongs to, not that there is one.
func shared(kind *layout.Kind, column string) bool {
	return kind.Name != "jobs" && (column == "shop" || column == "job_no")
}

// Bind gives a value a parameter.
func (m *Mapped) Bind(value string) string {
	name := fmt.Sprintf("value_%d", len(m.Params)+1)
	m.Params[name] = value
	return "$" + name + "::varchar"
}

// fromSQL is the source's rows, or the items of a list in them. The items are laid down first: the engine hands on those of
// each cell in a lot of their own, and every reading would cost as much for three of them as for two thousand. Laying
// down is dear too, so only the columns that the record needs are.
func (m *Mapped) fromSQL(record RecordMapping) (string, error) {
	each, cell := record.Each, ""
	if each.Column != "" {
		var err error
		if cell, err = m.cell(record.setting("each.column"), each.Column); err != nil {
			return "", err
		}
	}
	rows, err := m.levelSQL(record)
	if err != nil || cell == "" {
		return "from " + rows, err
	}
	condition := "item <> ''"
	if each.Only != "" {
		condition += " and regexp_matches(item, " + m.Bind(each.Only) + ")"
	}
	if each.Except != "" {
		condition += " and not regexp_matches(item, " + m.Bind(each.Except) + ")"
	}
	slices.Sort(m.used)
	return fmt.Sprintf("from (with items as materialized (select %s, tidy(unnest(regexp_split_to_array(%s, %s))) as item from %s) "+
		"select * from items where %s) as foreign_rows", strings.Join(slices.Compact(m.used), ", "), cell, m.Bind(each.expression()), rows, condition), nil
}

// whenSQL is the condition that a row holds the record, and the cells that it looks at.
func (m *Mapped) whenSQL(record RecordMapping, present []string) (cells, condition string, err error) {
	if len(record.When) == 0 {
		if record.Each.Column != "" || len(present) == 0 {
			return "null", "true", nil // an item is there, or there is no row
		}
		return "null", strings.Join(present, " or "), nil
	}
	var looked []string
	for _, name := range record.When {
		cell, err := m.cell(record.setting("when"), name)
		if err != nil {
			return "", "", err
		}
		looked = append(looked, "tidy("+cell+")")
	}
	condition = "len(list_filter(cells, c -> c <> '')) > 0"
	if record.Unless != "" {
		condition += fmt.Sprintf(" and not regexp_matches(cells[1], %s)", m.Bind(record.Unless))
	}
	return "[" + strings.Join(looked, ", ") + "]", condition, nil
}

// testsSQL is the condition that a row passes all tests.
func (m *Mapped) testsSQL(setting string, tests []RowTest) (string, error) {
	terms := []string{"true"}
	for _, test := range tests {
		cell, err := m.cell(setting, test.Column)
		if err != nil {
			return "", err
		}
		terms = append(terms, "("+m.testSQL(cell, test)+")")
	}
	return strings.Join(terms, " and "), nil
}

func (m *Mapped) testSQL(cell string, test RowTest) string {
	var either []string
	for _, text := range test.Is {
		either = append(either, fmt.Sprintf("lower(coalesce(tidy(%s), '')) = lower(%s)", cell, m.Bind(text)))
	}
	for _, text := range test.Contains {
		either = append(either, fmt.Sprintf("contains(lower(coalesce(%s, '')), lower(%s))", cell, m.Bind(text)))
	}
	if test.Matches != "" {
		either = append(either, fmt.Sprintf("regexp_matches(coalesce(%s, ''), %s)", cell, m.Bind(test.Matches)))
	}
	return strings.Join(either, " or ")
}

// SkipSQL is the condition that a row is a record's by the profile's skip. A row whose cells are looked at is called
// foreign_rows.
func (m *Mapped) SkipSQL() (string, error) {
	terms := []string{"true"}
	for _, test := range m.Profile.Source.Skip {
		cell, err := m.cell("source.skip", test.Column)
		if err != nil {
			return "", err
		}
		terms = append(terms, "not ("+m.testSQL(cell, test)+")")
	}
	return strings.Join(terms, " and "), nil
}

// numberSQL fills a number that the source does not have: 1, 2, 3 … within the rest of the key, over all records of the
// kind in the order of lines.
func (m *Mapped) numberSQL(kind *layout.Kind) string {
	for i, column := range kind.Columns {
		var numbered []string
		for number, record := range m.Records {
			if record.Fields[column.Name].Number != "" {
				numbered = append(numbered, fmt.Sprint(number+1))
			}
		}
		if len(numbered) == 0 {
			continue
		}
		var rest []string
		for j, other := range kind.Columns {
			if other.Key && j != i {
				rest = append(rest, fmt.Sprintf("coalesce(as_word(c%d), '')", j+1))
			}
		}
		return fmt.Sprintf("replace (case when record in (%s) then (row_number() over (partition by %s order by line, record, nth))::varchar "+
			"else c%[3]d end as c%[3]d)", strings.Join(numbered, ", "), strings.Join(rest, ", "), i+1)
	}
	return ""
}
