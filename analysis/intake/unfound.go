package intake

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/profile"
	"plumbline/analysis/intake/source"
)

// tellUnfound tells of each extraction that left a field empty, in how many rows, and the first.
func (im *importing) tellUnfound(p *part, levels []source.Level) error {
	m := &profile.Mapped{Profile: im.profile, Source: p.Header, Levels: levels, Params: history.Params{}}
	all, cells, err := m.Unfound()
	if err != nil || len(all) == 0 {
		return err
	}
	return im.tellOf(p, all, cells, m.Params)
}

// tellOf tells of the cells in which an expression does not match. One that matches and takes an empty part says that
// nothing may be there, and is told only where it never takes anything.
func (im *importing) tellOf(p *part, all []profile.Extraction, cells string, params history.Params) error {
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
		first, _, _ := strings.Cut(one.Header, " + ")
		cell := 1 + slices.IndexFunc(p.Header, func(name string) bool { return profile.SameHeader(name, first) })
		place := source.Fault{File: p.File, Sheet: p.Sheet, Line: row.Line, Cell: cell}.Place()
		im.notice("%s: the extract '%s' finds nothing in %s %q, so %s stays empty; rows where that is so: %d; "+
			"if something is there to find, mend the extract in the profile", place, one.Expression, one.Header, source.Shortened(row.Text), one.Field, row.Rows)
	}
	return nil
}
