package quality

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"time"

	"golang.org/x/sync/errgroup"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// OnsetGroupings lists what a change can be looked for by.
var OnsetGroupings = []string{"equipment", "target", "bay", "technician", "supplier", "software_version"}

// The permutation p is the same every time. With 1,999 random orders it is known to 0.005 at 0.05; many groups need more,
// or even a p that no order reached could not stand out among them.
const (
	onsetSeed      = 1
	leastDraws     = 1999
	drawsForAGroup = 40 // q of a change that no order reached is then at most 1/40
)

// toldWithin is the p below which a point inside a part is told: the part was looked into because the first was told.
const toldWithin = 0.025

// An Onset is a moment at which a group's share of tasks that are not first pass changed. The days are those of the last
// job before the change and of the first after it; before and after are the stretches to the neighbouring changes. P is how
// often chance alone makes a split at least that good in the same jobs, Q that of the group's first point over all groups
// that the answer shows.
type Onset struct {
	Group       string
	N           int64
	Count       int64
	Change      int // 1, 2, 3 in order of time
	LastBefore  time.Time
	FirstAfter  time.Time
	Until       *time.Time // first day after the next change; nil where the state holds
	BeforeN     int64
	BeforeCount int64
	BeforeRate  float64
	BeforeLow   float64
	BeforeHigh  float64
	AfterN      int64
	AfterCount  int64
	AfterRate   float64
	AfterLow    float64
	AfterHigh   float64
	P           float64
	Q           float64

	Difference float64          `col:"-"` // after less before, with Newcombe's interval
	DiffLow    float64          `col:"-"`
	DiffHigh   float64          `col:"-"`
	First      stats.Proportion `col:"-"` // the group's first stretch: what the state now is held against
	FirstP     float64          `col:"-"` // of the group's first point, which Q is made of
	Draws      int              `col:"-"` // random orders behind P
	Seed       uint64           `col:"-"` // of these orders
}

// IsChange is the one test by which a group is said to have changed.
func (o Onset) IsChange() bool { return o.Q < 0.05 }

// Holds reports whether the state that the change began is the state now.
func (o Onset) Holds() bool { return o.IsChange() && o.Until == nil }

// An OnsetTable is the change points of all groups of a grouping, the clearest group first.
type OnsetTable struct {
	By       string
	Onsets   []Onset
	TooFew   []string // groups of fewer than 10 tasks
	NoChange []string // groups that cannot be split: no task or every task is first pass, or no day leaves 10 tasks either side
}

// Onsets looks in every group of the groupings for the moments at which its rate of tasks that are not first pass changed.
// All that is asked together shares one adjustment of p to q.
func Onsets(ctx context.Context, h *history.History, f Filter, groupings ...string) ([]OnsetTable, error) {
	tables, searches := make([]OnsetTable, len(groupings)), make([][]search, len(groupings))
	for i, by := range groupings {
		if err := oneOf("onset by", by, OnsetGroupings); err != nil {
			return nil, err
		}
		tables[i] = OnsetTable{By: by, Onsets: []Onset{}}
		rows, err := history.Select[jobsOfDay](ctx, h, "measures/onset", f.with(history.Params{"by": by}))
		if err != nil {
			return nil, err
		}
		for _, s := range sequencesOf(rows) {
			if s.all.N < minGroup {
				tables[i].TooFew = append(tables[i].TooFew, s.group)
				continue
			}
			searches[i] = append(searches[i], search{sequence: s})
		}
	}
	flat := slices.Concat(searches...)
	found, err := searchAll(flat, max(leastDraws, drawsForAGroup*len(flat)))
	if err != nil {
		return nil, fmt.Errorf("onset: %w", err)
	}
	for i := range tables {
		n := len(searches[i])
		if err := tables[i].fill(found[:n]); err != nil {
			return nil, fmt.Errorf("onset by %s: %w", tables[i].By, err)
		}
		found = found[n:]
	}
	return tables, nil
}

// searchAll finds the first point of every sequence, turns p into q, and looks into the parts of those that are told.
func searchAll(searches []search, draws int) ([]search, error) {
	if err := side(searches, func(s *search) error { return s.findFirst(draws) }); err != nil {
		return nil, err
	}
	defined := func(s *search) *float64 { return value(s.first.P, s.first.Defined) }
	if err := adjust(searches, defined, func(s *search, q float64) { s.q = q }); err != nil {
		return nil, err
	}
	return searches, side(searches, func(s *search) error { return s.findWithin(draws) })
}

// side does the work of all searches side by side.
func side(searches []search, work func(*search) error) error {
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range searches {
		group.Go(func() error { return work(&searches[i]) })
	}
	return group.Wait()
}

// fill makes the rows of the groups, the clearest first.
func (t *OnsetTable) fill(found []search) error {
	slices.SortStableFunc(found, func(a, b search) int {
		return cmp.Or(cmp.Compare(a.first.P, b.first.P), cmp.Compare(b.sequence.all.N, a.sequence.all.N))
	})
	for _, s := range found {
		if !s.first.Defined {
			t.NoChange = append(t.NoChange, s.sequence.group)
			continue
		}
		rows, err := s.rows()
		if err != nil {
			return err
		}
		t.Onsets = append(t.Onsets, rows...)
	}
	slices.Sort(t.NoChange)
	return nil
}
