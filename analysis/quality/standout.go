package quality

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"plumbline/analysis/history"
)

// The kinds of thing that can stand out.
const (
	StandoutCall   = "call"   // a group that is higher than the others like with like
	StandoutChange = "change" // a group whose rate rose, and has not come down
	StandoutSignal = "signal" // a trend that signals on the bad side
	StandoutGlass  = "glass"  // a source of glass that goes with a higher rate
	StandoutGap    = "gap"    // a shop whose records lack something more often than the others'
)

// A Standout is a thing that stands out in a month's review. Count less Expected is how many more there are than expected.
type Standout struct {
	Rank        int
	Kind        string
	Grouping    string // empty for a signal
	Group       string
	Outcome     string // or, of a gap, the kind of finding
	Consequence int    // 1 to 4: what can happen to people on the road comes first
	Since       string // a day, or a signal's first month; empty where that is not known
	N           int64
	Count       int64
	Expected    float64
	Excess      float64
	OddsRatio   *float64
	Low         *float64
	High        *float64
	Q           *float64 // over all that was looked at; nil for a signal, whose own rate is small
	Action      string   // the latest one on the subject since, with its verdict
	Detail      string
}

// consequences ranks the outcomes; whatever is not here is a gap in the record.
var consequences = map[string]int{string(PostScanFault): 1, string(OpenFaults): 1, string(Comeback): 2, string(NotFirstPass): 3}

// Standouts lists what stands out in a month, written 2026-03, the gravest first: calls and gaps of the twelve months that end
// with it, changes that fall in them, and signals and glass by all records up to its end. Error is shared among all that is
// looked at. The history must have been looked back.
func Standouts(ctx context.Context, h *history.History, month string) ([]Standout, error) {
	starts, err := time.Parse("2006-01", month)
	if err != nil {
		return nil, &PeriodError{month, Month}
	}
	first, last := starts.AddDate(0, -11, 0), starts.AddDate(0, 1, 0).Add(-time.Microsecond)
	s := &standing{ctx: ctx, h: h, month: month, year: Filter{From: &first, To: &last}, upTo: Filter{To: &last}}
	for _, look := range []func() error{s.calls, s.changes, s.glass, s.gaps} {
		if err := look(); err != nil {
			return nil, fmt.Errorf("what stands out in %s: %w", month, err)
		}
	}
	things, err := s.told()
	if err == nil {
		things, err = s.foldAll(things)
	}
	if err == nil {
		things, err = s.withSignals(things)
	}
	if err == nil {
		err = s.nameActions(things)
	}
	if err != nil {
		return nil, fmt.Errorf("what stands out in %s: %w", month, err)
	}
	rankThings(things)
	return things, nil
}

// standing is the search for what stands out in one month.
type standing struct {
	ctx        context.Context
	h          *history.History
	month      string
	year, upTo Filter
	looked     []look
	compared   map[Outcome]map[string]Comparison // of the twelve months, by grouping
}

// look is one thing looked at: its p takes part in the sharing of error, and it is listed if it is anything.
type look struct {
	p     float64
	thing *Standout // nil where it is on the good side, or told by nothing but its p
	q     float64
}

// told are the things whose q, over everything looked at, is below 0.05.
func (s *standing) told() ([]Standout, error) {
	err := adjust(s.looked, func(l *look) *float64 { return &l.p }, func(l *look, q float64) { l.q = q })
	if err != nil {
		return nil, err
	}
	var things []Standout
	for i := range s.looked {
		if l := &s.looked[i]; l.thing != nil && l.q < 0.05 {
			l.thing.Q = &l.q
			things = append(things, *l.thing)
		}
	}
	return things, nil
}

// rankThings puts the gravest first, and the most in excess first among the equally grave.
func rankThings(things []Standout) {
	for i := range things {
		thing := &things[i]
		thing.Excess = float64(thing.Count) - thing.Expected
		thing.Consequence = consequences[thing.Outcome]
		if thing.Consequence == 0 {
			thing.Consequence = 4
		}
	}
	slices.SortStableFunc(things, func(a, b Standout) int {
		return cmp.Or(cmp.Compare(a.Consequence, b.Consequence), cmp.Compare(b.Excess, a.Excess),
			cmp.Compare(a.Grouping, b.Grouping), cmp.Compare(a.Group, b.Group), cmp.Compare(a.Outcome, b.Outcome))
	})
	for i := range things {
		things[i].Rank = i + 1
	}
}
