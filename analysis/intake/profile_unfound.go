package intake

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
)

// This file tells where an extraction found nothing in a cell that held text. No balance of rows shows that: a field that
// may be missing is then missing.

// An extraction is a part that a profile takes out of a column of the source, for however many of its records.
type extraction struct {
	field      string // of the layout
	header     string // of the source
	expression string
}

// tellUnfound tells of each extraction that left a field empty, in how many rows, and the first.
func (im *importing) tellUnfound(p *part) error {
	m := &mapped{profile: im.profile, source: p.header, params: history.Params{}}
	var all []extraction
	var cells []string
	for _, record := range im.profile.Records {
		for _, column := range KindNamed(record.Kind).Columns {
			field := record.Fields[column.Name]
			if !record.mayEmpty(column, field) {
				continue
			}
			one := extraction{column.Name, m.headerOf(record, column.Name), field.Extract}
			at := slices.IndexFunc(all, one.isSame)
			if at < 0 {
				at, all = len(all), append(all, one)
			}
			statement, err := m.foundSQL(record, column, field, at)
			if err != nil {
				return err
			}
			cells = append(cells, statement)
		}
	}
	if len(all) == 0 {
		return nil
	}
	return im.tellOf(p, all, strings.Join(cells, "\nunion all\n"), m.params)
}

// isSame holds for fields of one name that records of several kinds have by one extraction.
func (e extraction) isSame(other extraction) bool {
	return e.field == other.field && sameHeader(e.header, other.header) && e.expression == other.expression
}

// mayEmpty says that the field is silently empty where its extraction finds nothing: not where the profile says what an
// empty one means, nor where the row is then set aside.
func (r RecordMapping) mayEmpty(column Column, field Field) bool {
	if _, told := field.Words[""]; told || field.Extract == "" || field.Constant != "" {
		return false
	}
	isMadeAnyway := r.When != "" || r.Each.Column != ""
	return !column.staysWhole() && !(column.Required && isMadeAnyway)
}

// foundSQL is what the extraction numbered at finds in each cell that holds text, and whether it matches there at all.
func (m *mapped) foundSQL(record RecordMapping, column Column, field Field, at int) (string, error) {
	m.used = []string{"line", "misshapen"}
	text, err := m.originSQL(record, column.Name, field)
	if err != nil {
		return "", err
	}
	cell, when, err := m.whenSQL(record, nil)
	if err != nil {
		return "", err
	}
	from, err := m.fromSQL(record)
	if err != nil {
		return "", err
	}
	found := m.extractSQL("text", column, field.Extract)
	return fmt.Sprintf(`select %d as at, line, text, found, found is not null or regexp_matches(text, %s) as matches
from (select line, text, %s as found from (select line, misshapen, %s as text, %s as cell %s)
    where misshapen is null and read_text(text) is not null and (%s))`, at, m.bind(field.Extract), found, text, cell, from, when), nil
}

// tellOf tells of the cells in which an expression does not match. One that matches and takes an empty part says that
// nothing may be there, and is told only where it never takes anything.
func (im *importing) tellOf(p *part, all []extraction, cells string, params history.Params) error {
	type unfound struct {
		At, Rows, Line int64
		Text           string
	}
	rows, err := history.SelectStatement[unfound](im.ctx, im.h, history.Statement{Name: "profile " + im.profile.Name, SQL: fmt.Sprintf(`
with cells as (%s),
counted as (
    select at, count(found) > 0 as finds,
        count(distinct line) as rows, min({'line': line, 'text': text}) as first,
        count(distinct line) filter (not matches) as unmatched_rows, min({'line': line, 'text': text}) filter (not matches) as first_unmatched
    from cells group by at
),
told as (
    select at, case when finds then unmatched_rows else rows end as rows, case when finds then first_unmatched else first end as first
    from counted
)
select at::bigint as at, rows::bigint as rows, first.line::bigint as line, first.text as text from told where rows > 0 order by at`, cells)}, params)
	if err != nil {
		return err
	}
	for _, row := range rows {
		one := all[row.At]
		first, _, _ := strings.Cut(one.header, " + ")
		cell := 1 + slices.IndexFunc(p.header, func(name string) bool { return sameHeader(name, first) })
		place := Fault{File: p.file, Sheet: p.sheet, Line: row.Line, Cell: cell}.place()
		im.notice("%s: the extract '%s' finds nothing in %s %q, so %s stays empty; rows where that is so: %d; "+
			"if something is there to find, mend the extract in the profile", place, one.expression, one.header, shortened(row.Text), one.field, row.Rows)
	}
	return nil
}
