package profile

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// fieldSQL is the text of a layout's column in the layout's form.
func (m *Mapped) fieldSQL(record RecordMapping, column layout.Column, field Field) (string, error) {
	text, err := m.originSQL(record, column.Name, field)
	if err != nil || field.Number != "" {
		return text, err
	}
	if field.Extract != "" {
		text = m.extractSQL(text, column, field.Extract)
	}
	if len(field.Words) > 0 || field.Otherwise != "" {
		text = m.wordsSQL(text, field)
	}
	if field.Constant != "" {
		return text, nil
	}
	source := m.Profile.Source
	switch {
	case column.IsMoment():
		serials := m.Bind(m.Serials)
		if source.DateSerials == "" && m.Serials != "" { // a workbook's: 2026 below a date is rather a year than 1905
			serials = fmt.Sprintf("case when regexp_full_match(%s, '[0-9]{5}([.][0-9]+)?') then %s else '' end", text, serials)
		}
		text = fmt.Sprintf("moment_text(%s, %s, %s)", text, m.Bind(source.DateOrder), serials)
	case column.Type == layout.Number || column.Type == layout.Integer:
		if source.Decimal != "." || source.Thousands != "" {
			text = fmt.Sprintf("number_text(%s, %s, %s)", text, m.Bind(source.Decimal), m.Bind(source.Thousands))
		}
		if factor := factors[column.Name][field.Unit]; factor != "" {
			text = fmt.Sprintf("scaled_text(%s, %s::double)", text, m.Bind(factor))
		}
	}
	return text, nil
}

// extractSQL takes the part of a text that an expression finds. Where it finds none, a value that the record must have
// stays whole, so that its reject shows what stands in the cell.
func (m *Mapped) extractSQL(text string, column layout.Column, expression string) string {
	found := fmt.Sprintf("nullif(regexp_extract(%s, %s, %d), '')", text, m.Bind(expression), groupOf(expression))
	if staysWhole(column) {
		return fmt.Sprintf("coalesce(%s, %s)", found, text)
	}
	return found
}

// staysWhole says that a cell of the column is kept where an extraction finds nothing in it.
func staysWhole(c layout.Column) bool {
	return c.Required && c.Type != layout.Text && c.Type != layout.TroubleCode
}

// groupOf is the group that holds the value: the first, or the whole match where there is none.
func groupOf(expression string) int {
	compiled, err := regexp.Compile(expression)
	if err != nil {
		return 0
	}
	return min(1, compiled.NumSubexp())
}

// originSQL is the text as the source has it.
func (m *Mapped) originSQL(record RecordMapping, name string, field Field) (string, error) {
	setting := record.setting("fields." + name)
	switch {
	case field.Constant != "":
		return m.Bind(field.Constant), nil
	case field.Item:
		return "item", nil
	case field.Number != "":
		return "null::varchar", nil // filled by numberSQL once the key's other columns are there
	case field.Position > 0:
		own := ownColumns(m.Source)
		if field.Position > len(own) {
			return "", m.Profile.Refuse(setting, fmt.Sprintf("the file has only %d columns", len(own)))
		}
		return m.at(len(m.Source) - len(own) + field.Position - 1), nil
	case len(field.Columns) > 0:
		var cells []string
		for _, name := range field.Columns {
			cell, err := m.cell(setting, name)
			if err != nil {
				return "", err
			}
			cells = append(cells, "read_text("+cell+")")
		}
		return "nullif(concat_ws(' ', " + strings.Join(cells, ", ") + "), '')", nil
	}
	return m.cell(setting, field.Column)
}

// wordsSQL turns the source's words into the layout's.
func (m *Mapped) wordsSQL(text string, field Field) string {
	var cases strings.Builder
	for _, word := range slices.Sorted(maps.Keys(field.Words)) {
		fmt.Fprintf(&cases, " when lower(%s) then nullif(%s, '')", m.Bind(word), m.Bind(field.Words[word]))
	}
	otherwise := text
	if field.Otherwise != "" {
		otherwise = fmt.Sprintf("case when read_text(%s) is not null then %s end", text, m.Bind(field.Otherwise))
	}
	if cases.Len() == 0 {
		return otherwise
	}
	return fmt.Sprintf("case lower(coalesce(tidy(%s), ''))%s else %s end", text, cases.String(), otherwise)
}

// HeadersOf names, for each record and each of the layout's columns, the source's column that it comes from.
func (m *Mapped) HeadersOf(kind *layout.Kind) [][]string {
	var all [][]string
	for _, record := range m.Records {
		names := make([]string, len(kind.Columns))
		for i, column := range kind.Columns {
			names[i] = m.headerOf(record, column.Name)
		}
		all = append(all, names)
	}
	return all
}

// headerOf names the source's column that one of the layout's comes from; those of the layout's own making keep its name.
func (m *Mapped) headerOf(record RecordMapping, name string) string {
	field, own := record.Fields[name], ownColumns(m.Source)
	switch {
	case field.Column != "":
		return field.Column
	case field.Position > 0 && field.Position <= len(own):
		return own[field.Position-1]
	case len(field.Columns) > 0:
		return strings.Join(field.Columns, " + ")
	case field.Item:
		return record.Each.Column
	}
	return name
}

// ownColumns are those of the source itself, without the three that lead a file of rejects.
func ownColumns(header []string) []string {
	if source.IsRejectHeader(header) {
		return header[len(source.RejectColumns):]
	}
	return header
}

// Unused lists the file's columns that no setting of the profile speaks of.
func (p *Profile) Unused(header []string) []string {
	var named []string
	positions := map[int]bool{}
	for _, record := range p.Records {
		named = append(named, record.When, record.Each.Column)
		for _, field := range record.Fields {
			named = append(append(named, field.Column), field.Columns...)
			positions[field.Position] = true
		}
	}
	var left []string
	for i, name := range ownColumns(header) {
		if name != "" && !positions[i+1] && !slices.ContainsFunc(named, func(one string) bool { return SameHeader(one, name) }) {
			left = append(left, name)
		}
	}
	return left
}
