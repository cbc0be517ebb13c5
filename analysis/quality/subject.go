package quality

import (
	"context"
	"fmt"
	"strings"
	"time"

	"golang.org/x/sync/errgroup"

	"plumbline/analysis/history"
)

// SubjectKinds lists what a story can be told of beside a vehicle.
var SubjectKinds = []string{"technician", "bay", "equipment", "target"}

// A SubjectStory is everything on record about a person, a bay, a stand or a board: whether it was checked and what was
// done about it, what was measured there, and what failed there and then worked.
type SubjectStory struct {
	Kind     string // technician, bay, equipment or target
	Name     string // as answers write it: shop/name, a board alone
	Months   []SubjectMonth
	Events   []SubjectEvent
	Failures []SubjectFailure
	Readings []SubjectReading
}

// A SubjectMonth is what was done in a month.
type SubjectMonth struct {
	Month        string // 2026-03
	Attempts     int64
	NotCompleted int64 // of these
	Tasks        int64 // whose first attempt it was
	NotFirstPass int64 // of these
	Outside      int64 // measured values outside their tolerance
	Readings     int64 // measured values with a tolerance
}

// A SubjectEvent is a check, an action, the first use of a software version, or an attempt that did not complete, with
// what came next in its task.
type SubjectEvent struct {
	At          time.Time
	Kind        string // check, action, software or attempt
	Shop        string
	Outcome     *string // of a check or attempt
	Text        *string
	By          *string
	DueAt       *time.Time
	JobNo       *string
	System      *string
	Position    *string
	AttemptNo   *int64
	VIN         *string `db:"vin"`
	NextAt      *time.Time
	NextOutcome *string
	Changed     *string // what had changed by the next attempt, joined by commas
}

// A SubjectFailure is a reason for which attempts did not complete there, beside how often that happened elsewhere.
type SubjectFailure struct {
	Code          *string // nil: none recorded
	Text          *string
	N             int64
	Others        int64 // attempts anywhere else
	Retried       int64 // of N, followed by another
	CompletedNext int64 // of these
	Changed       *string
}

// A SubjectReading is how a quantity lay in its tolerance in a month, in half widths of it from its middle.
type SubjectReading struct {
	Quantity          string
	Month             string
	N, Outside        int64
	Median, Low, High float64
}

// TraceSubject tells the story of the one person, bay, stand or board that a name names. Of the filter only from and to
// count. The history must have been looked back. A name that names nothing, or several, is an error that says what comes
// closest.
func TraceSubject(ctx context.Context, h *history.History, kind, name string, f Filter) (SubjectStory, error) {
	s := SubjectStory{Kind: kind}
	if err := oneOf("story of a", kind, SubjectKinds); err != nil {
		return s, err
	}
	var err error
	if s.Name, err = findSubject(ctx, h, kind, strings.TrimSpace(name)); err != nil {
		return s, err
	}
	params := history.Params{"kind": kind, "name": s.Name, "from": f.From, "to": f.To}
	var parts errgroup.Group
	for _, part := range []func() error{
		func() error { return read(ctx, h, "measures/subject_months", params, &s.Months) },
		func() error { return read(ctx, h, "measures/subject_events", params, &s.Events) },
		func() error { return read(ctx, h, "measures/subject_failures", params, &s.Failures) },
		func() error { return read(ctx, h, "measures/subject_readings", params, &s.Readings) },
	} {
		parts.Go(part)
	}
	return s, parts.Wait()
}

// findSubject gives the name as answers write it.
func findSubject(ctx context.Context, h *history.History, kind, key string) (string, error) {
	type found struct {
		Name  string
		Steps int64
	}
	near, err := history.Select[found](ctx, h, "measures/subject_find", history.Params{"kind": kind, "key": key})
	if err != nil {
		return "", err
	}
	names := make([]string, len(near))
	for i, one := range near {
		names[i] = one.Name
	}
	switch {
	case len(near) == 0:
		return "", fmt.Errorf("no attempt on record names the %s %q: plumbline compare --by %s lists those that there are", kind, key, kind)
	case near[0].Steps > 0:
		return "", fmt.Errorf("no attempt on record names the %s %q; closest: %s", kind, key, strings.Join(names, ", "))
	case len(near) > 1:
		return "", fmt.Errorf("%q is more than one %s: %s; give it with its shop", key, kind, strings.Join(names, ", "))
	}
	return names[0], nil
}

// Sum adds the months up; its month is empty.
func (s SubjectStory) Sum() SubjectMonth {
	var sum SubjectMonth
	for _, m := range s.Months {
		sum.Attempts += m.Attempts
		sum.NotCompleted += m.NotCompleted
		sum.Tasks += m.Tasks
		sum.NotFirstPass += m.NotFirstPass
		sum.Outside += m.Outside
		sum.Readings += m.Readings
	}
	return sum
}
