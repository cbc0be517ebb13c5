package intake

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
)

// A mapped is a part that a profile's record makes from the rows in foreign_rows. Its read_rows holds the layout's
// columns as text in the layout's form, and beside them the source's row.
type mapped struct {
	profile *Profile
	record  RecordMapping
	source  []string // the file's own column names
	params  history.Params
}

// stage makes read_rows from foreign_rows.
func (m *mapped) stage(im *importing, p *part) error {
	m.params = history.Params{}
	var columns, present []string
	for i, column := range p.kind.Columns {
		if field, ok := m.record.Fields[column.Name]; ok {
			expression, err := m.fieldSQL(column, field)
			if err != nil {
				return err
			}
			columns = append(columns, fmt.Sprintf("%s as c%d", expression, i+1))
			if field.Constant == "" && field.Number == "" && !shared(p.kind, column.Name) {
				present = append(present, fmt.Sprintf("c%d", i+1))
			}
		} else {
			columns = append(columns, fmt.Sprintf("null::varchar as c%d", i+1))
		}
	}
	when, err := m.whenSQL(present)
	if err != nil {
		return err
	}
	from, err := m.fromSQL()
	if err != nil {
		return err
	}
	return im.runAs("profile "+m.profile.Name, fmt.Sprintf(`create or replace temporary table read_rows as
select * %s
from (select line, found, misshapen, fields, null::varchar as surplus, row_number() over () as nth, %s %s)
where %s
order by nth`, m.numberSQL(p.kind), strings.Join(columns, ", "), from, when), m.params)
}

// shared columns tell which job a record belongs to, not that there is one.
func shared(kind *Kind, column string) bool {
	return kind.Name != "jobs" && (column == "shop" || column == "job_no")
}

// bind gives a value a parameter.
func (m *mapped) bind(value string) string {
	name := fmt.Sprintf("value_%d", len(m.params)+1)
	m.params[name] = value
	return "$" + name + "::varchar"
}

// cell is a column of the source, by name or position.
func (m *mapped) cell(name string) (string, error) {
	place := slices.IndexFunc(m.source, func(header string) bool { return sameHeader(header, name) })
	if place < 0 {
		return "", m.profile.refuse(name, fmt.Sprintf("the file has no column %q", name))
	}
	return fmt.Sprintf("foreign_rows.c%d", place+1), nil
}

func sameHeader(one, other string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(one), " "), strings.Join(strings.Fields(other), " "))
}

// fieldSQL is the text of a layout's column in the layout's form.
func (m *mapped) fieldSQL(column Column, field Field) (string, error) {
	text, err := m.originSQL(field)
	if err != nil || field.Number != "" {
		return text, err
	}
	if field.Extract != "" {
		text = fmt.Sprintf("nullif(regexp_extract(%s, %s, %d), '')", text, m.bind(field.Extract), groupsOf(field.Extract))
	}
	if len(field.Words) > 0 || field.Otherwise != "" {
		text = m.wordsSQL(text, field)
	}
	if field.Constant != "" {
		return text, nil
	}
	switch {
	case column.isMoment():
		text = fmt.Sprintf("moment_text(%s, %s)", text, m.bind(m.profile.Source.DateOrder))
	case column.Type == Number || column.Type == Integer:
		text = fmt.Sprintf("number_text(%s, %s, %s)", text, m.bind(m.profile.Source.Decimal), m.bind(m.profile.Source.Thousands))
		if factor := factors[field.Unit]; factor != "" {
			text = fmt.Sprintf("scaled_text(%s, %s::double)", text, m.bind(factor))
		}
	}
	return text, nil
}

// groupsOf is the group that holds the value: the first, or the whole match where there is none.
func groupsOf(pattern string) int {
	if strings.Contains(strings.ReplaceAll(strings.ReplaceAll(pattern, `\(`, ""), "(?:", ""), "(") {
		return 1
	}
	return 0
}

func (m *mapped) originSQL(field Field) (string, error) {
	switch {
	case field.Constant != "":
		return m.bind(field.Constant), nil
	case field.Item:
		return "item", nil
	case field.Number != "":
		return "null::varchar", nil // filled by numberSQL once the key's other columns are there
	case field.Position > 0:
		if field.Position > len(m.source) {
			return "", m.profile.refuse("position", fmt.Sprintf("the file has only %d columns", len(m.source)))
		}
		return fmt.Sprintf("foreign_rows.c%d", field.Position), nil
	case len(field.Columns) > 0:
		var cells []string
		for _, name := range field.Columns {
			cell, err := m.cell(name)
			if err != nil {
				return "", err
			}
			cells = append(cells, "read_text("+cell+")")
		}
		return "nullif(concat_ws(' ', " + strings.Join(cells, ", ") + "), '')", nil
	}
	return m.cell(field.Column)
}

// wordsSQL turns the source's words into the layout's.
func (m *mapped) wordsSQL(text string, field Field) string {
	var cases strings.Builder
	keys := make([]string, 0, len(field.Words))
	for word := range field.Words {
		keys = append(keys, word)
	}
	slices.Sort(keys)
	for _, word := range keys {
		fmt.Fprintf(&cases, " when lower(%s) then nullif(%s, '')", m.bind(word), m.bind(field.Words[word]))
	}
	otherwise := text
	if field.Otherwise != "" {
		otherwise = fmt.Sprintf("case when read_text(%s) is not null then %s end", text, m.bind(field.Otherwise))
	}
	if cases.Len() == 0 {
		return otherwise
	}
	return fmt.Sprintf("case lower(coalesce(tidy(%s), ''))%s else %s end", text, cases.String(), otherwise)
}

// fromSQL is the source's rows, or the items of a list in them.
func (m *mapped) fromSQL() (string, error) {
	each := m.record.Each
	if each.Column == "" {
		return "from foreign_rows", nil
	}
	cell, err := m.cell(each.Column)
	if err != nil {
		return "", err
	}
	items := fmt.Sprintf("select *, tidy(unnest(regexp_split_to_array(%s, %s))) as item from foreign_rows",
		cell, m.bind(each.Separator))
	condition := "item <> ''"
	if each.Only != "" {
		condition += " and regexp_matches(item, " + m.bind(each.Only) + ")"
	}
	if each.Except != "" {
		condition += " and not regexp_matches(item, " + m.bind(each.Except) + ")"
	}
	return fmt.Sprintf("from (select * from (%s) where %s) as foreign_rows", items, condition), nil
}

// whenSQL is the condition that a row holds the record.
func (m *mapped) whenSQL(present []string) (string, error) {
	if m.record.Each.Column != "" && m.record.When == "" {
		return "true", nil // an item is there, or there is no row
	}
	if m.record.When == "" {
		var filled []string
		for _, column := range present {
			if column != "" {
				filled = append(filled, "read_text("+column+") is not null")
			}
		}
		if len(filled) == 0 {
			return "true", nil
		}
		return strings.Join(filled, " or "), nil
	}
	place := slices.IndexFunc(m.source, func(header string) bool { return sameHeader(header, m.record.When) })
	if place < 0 {
		return "", m.profile.refuse(m.record.When, fmt.Sprintf("the file has no column %q", m.record.When))
	}
	cell := fmt.Sprintf("fields[%d]", place+1)
	condition := "read_text(" + cell + ") is not null"
	if m.record.Unless != "" {
		condition += fmt.Sprintf(" and not regexp_matches(%s, %s)", cell, m.bind(m.record.Unless))
	}
	return condition, nil
}

// numberSQL fills a number that the source does not have: 1, 2, 3 … within the rest of the key.
func (m *mapped) numberSQL(kind *Kind) string {
	for i, column := range kind.Columns {
		if field, ok := m.record.Fields[column.Name]; !ok || field.Number == "" {
			continue
		}
		var rest []string
		for j, other := range kind.Columns {
			if other.Key && j != i {
				rest = append(rest, fmt.Sprintf("c%d", j+1))
			}
		}
		return fmt.Sprintf("replace ((row_number() over (partition by %s order by nth))::varchar as c%d)", strings.Join(rest, ", "), i+1)
	}
	return ""
}

// headerOf names, for each of the layout's columns, the source's column that it comes from.
func (m *mapped) headerOf(kind *Kind) []string {
	names := make([]string, len(kind.Columns))
	for i, column := range kind.Columns {
		field := m.record.Fields[column.Name]
		switch {
		case field.Column != "":
			names[i] = field.Column
		case field.Position > 0 && field.Position <= len(m.source):
			names[i] = m.source[field.Position-1]
		case len(field.Columns) > 0:
			names[i] = strings.Join(field.Columns, " + ")
		case field.Item:
			names[i] = m.record.Each.Column
		default:
			names[i] = column.Name
		}
	}
	return names
}
