package audit

import (
	"context"
	"fmt"
	"strings"
	"time"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/history"
)

// An InsurerError says that no job carries the insurer asked for. Like are the names on record that are most like it.
type InsurerError struct {
	Name string
	Like []string
}

// Error asks whether another name was meant.
func (e *InsurerError) Error() string {
	if len(e.Like) == 0 {
		return fmt.Sprintf("no job on record carries the insurer “%s”, nor any insurer at all", record.Visible(e.Name))
	}
	return fmt.Sprintf("no job on record carries the insurer “%s”; did you mean %s?", record.Visible(e.Name),
		strings.Join(quoted(e.Like), " or "))
}

// likeEnough is how like two names must be for one to be a slip for the other (Jaro and Winkler, 0 to 1). A choice of
// the project's: two letters swapped in a name of ten are above it, two different names nearly always below.
const likeEnough = 0.9

type insurerRow struct {
	Shown    string
	Jobs     int64
	Exactly  int64
	Folded   bool
	Likeness float64
}

// FindInsurer looks for the insurer by name, without regard to case. It gives its commonest spelling, and notices for
// the person who asked: that the name was written otherwise, and that like names are on record beside it.
func FindInsurer(ctx context.Context, h *history.History, name string) (shown string, notices []string, err error) {
	name = strings.TrimSpace(name)
	rows, err := history.Select[insurerRow](ctx, h, "measures/audit_insurers", history.Params{"name": name})
	if err != nil {
		return "", nil, err
	}
	if len(rows) == 0 || !rows[0].Folded {
		return "", nil, &InsurerError{name, mostLike(rows)}
	}
	found := rows[0]
	if found.Exactly == 0 {
		notices = append(notices, fmt.Sprintf("“%s” is written “%s” in the records; its jobs are taken. "+
			"Is that the one you mean?", record.Visible(name), record.Visible(found.Shown)))
	}
	for _, row := range rows[1:] {
		if row.Likeness >= likeEnough {
			notices = append(notices, fmt.Sprintf("“%s” (%d jobs) is nearly the same name and is not taken. "+
				"If it is the same insurer, correct the records and import them again.", record.Visible(row.Shown), row.Jobs))
		}
	}
	return found.Shown, notices, nil
}

// mostLike are the names that could be meant: those that are a slip away, else the three that are nearest.
func mostLike(rows []insurerRow) []string {
	var near, nearest []string
	for _, row := range rows {
		if row.Likeness >= likeEnough {
			near = append(near, row.Shown)
		}
		if len(nearest) < 3 {
			nearest = append(nearest, row.Shown)
		}
	}
	if len(near) > 0 {
		return near
	}
	return nearest
}

func quoted(names []string) []string {
	list := make([]string, len(names))
	for i, name := range names {
		list[i] = "“" + record.Visible(name) + "”"
	}
	return list
}

// A NoJobsError says that the insurer has no job in the period, and when it has some.
type NoJobsError struct {
	Insurer     string
	First, Last *time.Time // of all its jobs
}

// Error is one line with what to do.
func (e *NoJobsError) Error() string {
	text := fmt.Sprintf("“%s” has no job that was opened in this period", record.Visible(e.Insurer))
	if e.First != nil && e.Last != nil {
		text += fmt.Sprintf("; its jobs were opened from %s to %s",
			e.First.Format(time.DateOnly), e.Last.Format(time.DateOnly))
	}
	return text
}
