package profile

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// This file tells where an extraction found nothing in a cell that held text. No balance of rows shows that: a field that
// may be missing is then missing.

// An Extraction is a part that a profile takes out of a column of the source, for however many of its records.
type Extraction struct {
	Field      string // of the layout
	Header     string // of the source
	Expression string
}

// Unfound gives the extractions that may leave a field empty, and a select of what each finds in every cell.
func (m *Mapped) Unfound() ([]Extraction, string, error) {
	var all []Extraction
	var cells []string
	for _, record := range m.Profile.Records {
		for _, column := range layout.KindNamed(record.Kind).Columns {
			field := record.Fields[column.Name]
			if !record.mayEmpty(column, field) {
				continue
			}
			one := Extraction{column.Name, m.headerOf(record, column.Name), field.Extract}
			at := slices.IndexFunc(all, one.isSame)
			if at < 0 {
				at, all = len(all), append(all, one)
			}
			statement, err := m.foundSQL(record, column, field, at)
			if err != nil {
				return nil, "", err
			}
			cells = append(cells, statement)
		}
	}
	return all, strings.Join(cells, "\nunion all\n"), nil
}

// isSame holds for fields of one name that records of several kinds have by one extraction.
func (e Extraction) isSame(other Extraction) bool {
	return e.Field == other.Field && SameHeader(e.Header, other.Header) && e.Expression == other.Expression
}

// mayEmpty says that the field is silently empty where its extraction finds nothing: not where the profile says what an
// empty one means, nor where the row is then set aside.
func (r RecordMapping) mayEmpty(column layout.Column, field Field) bool {
	if _, told := field.Words[""]; told || field.Extract == "" || field.Constant != "" {
		return false
	}
	isMadeAnyway := len(r.When) > 0 || r.Each.Column != ""
	return !StaysWhole(column) && !(column.Required && isMadeAnyway)
}

// foundSQL is what the extraction numbered at finds in each cell that holds text, and whether it matches there at all.
func (m *Mapped) foundSQL(record RecordMapping, column layout.Column, field Field, at int) (string, error) {
	m.used = slices.Clone(always)
	text, err := m.originSQL(record, column.Name, field)
	if err != nil {
		return "", err
	}
	cells, when, err := m.whenSQL(record, nil)
	if err != nil {
		return "", err
	}
	passes, err := m.testsSQL(record.setting("rows"), record.Rows)
	if err != nil {
		return "", err
	}
	from, err := m.fromSQL(record)
	if err != nil {
		return "", err
	}
	found := m.extractSQL("text", column, field.Extract)
	return fmt.Sprintf(`select %d as at, line, text, found, found is not null or regexp_matches(text, %s) as matches
from (select line, text, %s as found from (select line, misshapen, %s as text, %s as cells, %s as passes %s)
    where misshapen is null and read_text(text) is not null and passes and (%s))`, at, m.Bind(field.Extract), found, text, cells, passes, from, when), nil
}
