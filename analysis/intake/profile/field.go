package profile

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// fieldSQL is the text of a layout's column in the layout's form.
func (m *Mapped) fieldSQL(record RecordMapping, column layout.Column, field Field) (string, error) {
	text, err := m.originSQL(record, column.Name, field)
	if err != nil || field.Number != "" {
		return text, err
	}
	if field.Drop != "" {
		text = m.dropSQL(text, field.Drop)
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
		return m.unitSQL(record, column, field.Unit, text)
	}
	return text, nil
}

// unitSQL turns a number into the layout's unit. One whose unit is not known keeps it beside it, and so is no number.
func (m *Mapped) unitSQL(record RecordMapping, column layout.Column, unit Unit, text string) (string, error) {
	known := factors[column.Name]
	if unit.Column == "" {
		if factor := known[unit.Name]; factor != "" {
			text = fmt.Sprintf("scaled_text(%s, %s::double)", text, m.Bind(factor))
		}
		return text, nil
	}
	cell, err := m.cell(record.setting("fields."+column.Name), unit.Column)
	if err != nil {
		return "", err
	}
	var cases strings.Builder
	add := func(word, name string) {
		fmt.Fprintf(&cases, " when lower(%s) then scaled_text(%s, %s::double)", m.Bind(word), text, m.Bind(known[name]))
	}
	for _, word := range slices.Sorted(maps.Keys(unit.Words)) {
		add(word, unit.Words[word])
	}
	for _, name := range slices.Sorted(maps.Keys(known)) {
		if _, told := unit.Words[name]; !told {
			add(name, name)
		}
	}
	return fmt.Sprintf("case lower(coalesce(tidy(%s), ''))%s else %s || ' ' || coalesce(tidy(%[1]s), '') end", cell, cases.String(), text), nil
}

// extractSQL takes the part of a text that an expression finds. Where it finds none, a value that the record must have
// stays whole, so that its reject shows what stands in the cell.
func (m *Mapped) extractSQL(text string, column layout.Column, expression string) string {
	found := fmt.Sprintf("nullif(regexp_extract(%s, %s, %d), '')", text, m.Bind(expression), groupOf(expression))
	if StaysWhole(column) {
		return fmt.Sprintf("coalesce(%s, %s)", found, text)
	}
	return found
}

// StaysWhole says that a cell of the column is kept where an extraction finds nothing in it.
func StaysWhole(c layout.Column) bool {
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
		own := OwnColumns(m.Source)
		if field.Position > len(own) {
			return "", m.Profile.Refuse(setting, fmt.Sprintf("the file has only %d columns", len(own)))
		}
		return m.at(len(m.Source) - len(own) + field.Position - 1), nil
	case len(field.Either) > 0:
		return m.eitherSQL(record, setting, field.Either)
	case field.Column != "":
		return m.joinedSQL(record, setting, field.Column)
	}
	return m.joinedSQL(record, setting, field.Columns...)
}

// eitherSQL is the first of several texts of which every column is filled, else the last.
func (m *Mapped) eitherSQL(record RecordMapping, setting string, names []string) (string, error) {
	var cases strings.Builder
	for i, name := range names {
		text, err := m.joinedSQL(record, setting, name)
		if err != nil {
			return "", err
		}
		if i == len(names)-1 {
			return fmt.Sprintf("case%s else %s end", cases.String(), text), nil
		}
		found, err := m.pieces(setting, name)
		if err != nil {
			return "", err
		}
		var filled []string
		for _, piece := range found {
			filled = append(filled, "read_text("+m.at(piece.Place)+") is not null")
		}
		fmt.Fprintf(&cases, " when %s then %s", strings.Join(filled, " and "), text)
	}
	return "", nil
}

// joinedSQL is the cells of the columns named, joined with a space.
func (m *Mapped) joinedSQL(record RecordMapping, setting string, names ...string) (string, error) {
	var cells []string
	for _, text := range names {
		found, err := m.pieces(setting, text)
		if err != nil {
			return "", err
		}
		for _, piece := range found {
			cells = append(cells, m.pieceSQL(record, piece))
		}
	}
	if len(cells) == 1 {
		return cells[0], nil
	}
	for i := range cells {
		cells[i] = "read_text(" + cells[i] + ")"
	}
	return "nullif(concat_ws(' ', " + strings.Join(cells, ", ") + "), '')", nil
}

// pieceSQL is a cell, or a part of it. Of the column that each cuts into items it is the item.
func (m *Mapped) pieceSQL(record RecordMapping, piece Piece) string {
	cell := "item"
	if record.Each.Column == "" || columnAt(record.Each.Column, OwnColumns(m.Source)) != piece.Place-len(m.Source)+len(OwnColumns(m.Source)) {
		cell = m.at(piece.Place)
	}
	if piece.Part == 0 {
		return cell
	}
	return fmt.Sprintf("regexp_extract(%s, %s, 1)", cell, m.Bind(PartExpression(m.Profile.cutOf(m.Source[piece.Place]), piece.Part, piece.On)))
}

// cutOf are the marks at which a column is cut into parts.
func (p *Profile) cutOf(name string) string {
	for column, marks := range p.Source.Cut {
		if SameHeader(column, name) {
			return marks
		}
	}
	return cutMarks
}

// None is the word of a profile for a word of the source that is no value.
const None = "none"

// nothing marks, within a statement, a value that the profile says is none.
const nothing = "chr(26)"

func (f Field) hasNone() bool {
	for _, to := range f.Words {
		if to == None {
			return true
		}
	}
	return false
}

// dropSQL leaves out a text that stands before the value.
func (m *Mapped) dropSQL(text, drop string) string {
	return fmt.Sprintf("list_transform([tidy(%s)], t -> case when starts_with(lower(t), lower(%[2]s)) then ltrim(t[length(%[2]s) + 1:]) else t end)[1]", text, m.Bind(drop))
}

// wordsSQL turns the source's words into the layout's; one that begins with ~ is any text that contains the rest of it.
func (m *Mapped) wordsSQL(text string, field Field) string {
	var whole, within strings.Builder
	for _, word := range slices.Sorted(maps.Keys(field.Words)) {
		meaning := nothing
		if field.Words[word] != None {
			meaning = "nullif(" + m.Bind(field.Words[word]) + ", '')"
		}
		if part, ok := strings.CutPrefix(word, "~"); ok && part != "" {
			fmt.Fprintf(&within, " when contains(w, lower(%s)) then %s", m.Bind(strings.TrimSpace(part)), meaning)
		} else {
			fmt.Fprintf(&whole, " when w = lower(%s) then %s", m.Bind(word), meaning)
		}
	}
	otherwise := text
	if field.Otherwise != "" {
		otherwise = fmt.Sprintf("case when read_text(%s) is not null then %s end", text, m.Bind(field.Otherwise))
	}
	if whole.Len()+within.Len() == 0 {
		return otherwise
	}
	return fmt.Sprintf("list_transform([lower(coalesce(tidy(%s), ''))], w -> case%s%s else %s end)[1]", text, whole.String(), within.String(), otherwise)
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
	field, own := record.Fields[name], OwnColumns(m.Source)
	switch {
	case field.Column != "":
		if found := pieces(field.Column, own); len(found) > 1 || len(found) == 1 && found[0].Part > 0 {
			var names []string
			for _, piece := range found {
				names = append(names, own[piece.Place])
			}
			return strings.Join(names, " + ")
		}
		return field.Column
	case field.Position > 0 && field.Position <= len(own):
		return own[field.Position-1]
	case len(field.Columns) > 0:
		return strings.Join(field.Columns, " + ")
	case len(field.Either) > 0:
		return field.Either[0]
	case field.Item:
		return record.Each.Column
	}
	return name
}
