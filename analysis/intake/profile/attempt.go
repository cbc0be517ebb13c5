package profile

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// This file makes attempts of rows: one of many rows, and two of one.

// Then stands between the outcomes of attempts that one word of the source tells of: failed then completed.
const Then = " then "

// groupSQL is what rows of one attempt are alike in; null where every row is for itself.
func (m *Mapped) groupSQL(record RecordMapping) (string, error) {
	var cells []string
	for _, name := range record.OneBy {
		found, err := m.pieces(record.setting("one_by"), name)
		if err != nil {
			return "", err
		}
		for _, piece := range found {
			cells = append(cells, "coalesce(tidy("+m.at(piece.Place)+"), '')")
		}
	}
	if len(cells) == 0 {
		return "null", nil
	}
	return "[" + strings.Join(cells, ", ") + "]", nil
}

// Gives tells whether the record has a value for a column of the layout: a field of its own, or the end of an attempt of many
// rows.
func (r RecordMapping) Gives(column string) bool {
	_, own := r.Fields[column]
	return own || column == "ended_at" && len(r.OneBy) > 0 && r.Kind == "calibrations"
}

func columnNo(kind *layout.Kind, name string) int {
	return 1 + slices.IndexFunc(kind.Columns, func(c layout.Column) bool { return c.Name == name })
}

// withSpan gives the rows of an attempt its first moment for their start, and the last moment as span_end.
func withSpan(kind *layout.Kind, rows string) string {
	started := columnNo(kind, "started_at")
	if started == 0 {
		return rows
	}
	return fmt.Sprintf(`select * replace (
    coalesce(first_value(c%[1]d) over (partition by alike order by read_moment(c%[1]d) nulls last, nth rows between unbounded preceding and unbounded following), c%[1]d) as c%[1]d),
    last_value(c%[1]d) over (partition by alike order by read_moment(c%[1]d) nulls first, nth rows between unbounded preceding and unbounded following) as span_end,
    read_moment(c%[1]d) as at_moment
from (%[2]s)`, started, rows)
}

// oneAttempt makes one record of the rows of an attempt: of every column the last value that is given, in the order of time.
func oneAttempt(kind *layout.Kind, rows string) string {
	ended := columnNo(kind, "ended_at")
	columns := make([]string, len(kind.Columns))
	for i := range columns {
		last := fmt.Sprintf("last(c%[1]d order by at_moment nulls first, nth) filter (read_text(c%[1]d) is not null)", i+1)
		if i+1 == ended {
			last = fmt.Sprintf("coalesce(%s, last(span_end))", last)
		}
		columns[i] = fmt.Sprintf("%s as c%d", last, i+1)
	}
	return fmt.Sprintf(`select min(id) as id, min(line) as line, min(found) as found, null::varchar as misshapen, null::varchar as surplus,
    min(record) as record, min(nth) as nth, %s
from (%s) group by alike`, strings.Join(columns, ", "), rows)
}

// eachAttempt makes as many records of a row as its outcome tells of. The failure is of those that did not complete, the end
// of the last.
func (m *Mapped) eachAttempt(kind *layout.Kind, record RecordMapping, rows string) string {
	field := record.Fields["outcome"]
	hasSteps := false
	for _, to := range field.Words {
		hasSteps = hasSteps || strings.Contains(to, Then)
	}
	if !hasSteps {
		return rows
	}
	var columns []string
	for i, column := range kind.Columns {
		cell := fmt.Sprintf("c%d", i+1)
		switch column.Name {
		case "outcome":
			cell = "steps[step]"
		case "ended_at":
			cell = fmt.Sprintf("case when step = len(steps) then %s end", cell)
		case "failure_code", "failure_text":
			cell = fmt.Sprintf("case when len(steps) = 1 or steps[step] <> 'completed' then %s end", cell)
		}
		columns = append(columns, fmt.Sprintf("%s as c%d", cell, i+1))
	}
	return fmt.Sprintf(`select id, line, found, misshapen, surplus, record, nth, %s
from (select *, unnest(range(1, len(steps) + 1)) as step from (select *, coalesce(string_split(c%d, '%s'), [null]) as steps from (%s)))`,
		strings.Join(columns, ", "), columnNo(kind, "outcome"), Then, rows)
}
