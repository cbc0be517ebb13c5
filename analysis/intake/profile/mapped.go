package profile

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
)

// A Mapped is a part that a profile makes of the rows in foreign_rows: all its records of one kind. Its read_rows holds
// the layout's columns as text in the layout's form, and beside them the source's row.
type Mapped struct {
	Profile *Profile
	Records []RecordMapping
	Source  []string // the file's own column names
	Serials string   // the system of a workbook's dates, or of the profile
	First   bool     // it is the part that also sets aside the rows of a wrong shape
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

// recordSQL gives the records that one mapping makes, numbered as record. The coin is that of typedSelect.
func (m *Mapped) recordSQL(kind *layout.Kind, record RecordMapping, number int) (string, error) {
	m.used = []string{"line", "found", "misshapen"}
	var columns, present []string
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
		columns = append(columns, fmt.Sprintf("%s as c%d", expression, i+1))
		if field.Constant == "" && field.Number == "" && !shared(kind, column.Name) {
			present = append(present, fmt.Sprintf("read_text(c%d) is not null", i+1))
		}
	}
	cell, when, err := m.whenSQL(record, present)
	if err != nil {
		return "", err
	}
	from, err := m.fromSQL(record)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf(`select * exclude (coin, cell)
from (select line, found, misshapen, null::varchar as surplus, %d as record, row_number() over () as nth, random() as coin, %s as cell, %s %s)
where coin < 0 or (misshapen is null and (%s))`, number, cell, strings.Join(columns, ", "), from, when), nil
}

// misshapenSQL gives the rows of a wrong shape, which make no record and are set aside once.
func misshapenSQL(kind *layout.Kind) string {
	columns := make([]string, len(kind.Columns))
	for i := range columns {
		columns[i] = fmt.Sprintf("null::varchar as c%d", i+1)
	}
	return "select line, found, misshapen, null::varchar as surplus, 1 as record, 0 as nth, " +
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

// Place finds a column of the source by its name, from 0. setting is where the profile names it.
func (m *Mapped) Place(setting, name string) (int, error) {
	place := slices.IndexFunc(m.Source, func(header string) bool { return SameHeader(header, name) })
	if place < 0 {
		return 0, m.Profile.Refuse(setting, fmt.Sprintf("the file has no column %q%s", name, m.Profile.Source.numbersColumns(m.Source)))
	}
	for i, header := range m.Source[place+1:] {
		if SameHeader(header, name) {
			return 0, m.Profile.Refuse(setting, fmt.Sprintf("the file has more than one column %q: columns %d and %d; "+
				"say which with position, or join its header rows with header_rows", name, place+1, place+2+i))
		}
	}
	return place, nil
}

func (m *Mapped) cell(setting, name string) (string, error) {
	place, err := m.Place(setting, name)
	return m.at(place), err
}

// at is a column of the source by its number from 0.
func (m *Mapped) at(place int) string {
	m.used = append(m.used, fmt.Sprintf("c%d", place+1))
	return fmt.Sprintf("foreign_rows.c%d", place+1)
}

func SameHeader(one, other string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(one), " "), strings.Join(strings.Fields(other), " "))
}

// fromSQL is the source's rows, or the items of a list in them. The items are laid down first: the engine hands on those of
// each cell in a lot of their own, and every reading would cost as much for three of them as for two thousand. Laying
// down is dear too, so only the columns that the record needs are.
func (m *Mapped) fromSQL(record RecordMapping) (string, error) {
	each := record.Each
	if each.Column == "" {
		return "from foreign_rows", nil
	}
	cell, err := m.cell(record.setting("each.column"), each.Column)
	if err != nil {
		return "", err
	}
	condition := "item <> ''"
	if each.Only != "" {
		condition += " and regexp_matches(item, " + m.Bind(each.Only) + ")"
	}
	if each.Except != "" {
		condition += " and not regexp_matches(item, " + m.Bind(each.Except) + ")"
	}
	slices.Sort(m.used)
	return fmt.Sprintf("from (with items as materialized (select %s, tidy(unnest(regexp_split_to_array(%s, %s))) as item from foreign_rows) "+
		"select * from items where %s) as foreign_rows", strings.Join(slices.Compact(m.used), ", "), cell, m.Bind(each.Separator), condition), nil
}

// whenSQL is the condition that a row holds the record, and the cell that it looks at.
func (m *Mapped) whenSQL(record RecordMapping, present []string) (cell, condition string, err error) {
	if record.When == "" {
		if record.Each.Column != "" || len(present) == 0 {
			return "null", "true", nil // an item is there, or there is no row
		}
		return "null", strings.Join(present, " or "), nil
	}
	if cell, err = m.cell(record.setting("when"), record.When); err != nil {
		return "", "", err
	}
	condition = "read_text(cell) is not null"
	if record.Unless != "" {
		condition += fmt.Sprintf(" and not regexp_matches(tidy(cell), %s)", m.Bind(record.Unless))
	}
	return cell, condition, nil
}

// numberSQL fills a number that the source does not have: 1, 2, 3 … within the rest of the key, over all records of the
// Kind in the order of lines.
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
