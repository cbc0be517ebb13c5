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

// mostByDay is the number of tasks from which sequences go by week: with days the orders would take too long.
const mostByDay = 50_000

// An Onset is the most likely moment at which a group's share of tasks that are not first pass changed. The days are
// those of the last task before the change and of the first after it. P is how often chance alone makes a split at
// least that good in the same tasks, Q the same over all groups looked at.
type Onset struct {
	Group       string
	N           int64
	Count       int64
	LastBefore  time.Time
	FirstAfter  time.Time
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
	Difference  float64 // after less before, with Newcombe's interval
	DiffLow     float64
	DiffHigh    float64
	P           float64
	Q           *float64 // nil where the group was looked at alone
	Draws       int      // random orders behind P; 0 where it is exact
	Seed        uint64   // of these orders
}

// IsChange is the one test by which a group is said to have changed.
func (o Onset) IsChange() bool { return o.Q != nil && *o.Q < 0.05 }

// An OnsetTable is the change points of all groups, the clearest first.
type OnsetTable struct {
	By       string
	Step     string // day, or week where there are too many tasks to go by days: a change is then known to the week
	Onsets   []Onset
	TooFew   []string // groups of fewer than 10 tasks
	NoChange []string // groups that cannot be split: no task or every task is first pass, or all fall on one day
}

// Onsets looks in every group of a grouping for the moment at which its rate of tasks that are not first pass changed.
func Onsets(ctx context.Context, h *history.History, by string, f Filter) (OnsetTable, error) {
	table := OnsetTable{By: by, Onsets: []Onset{}}
	sequences, step, err := finestSequences(ctx, h, by, f)
	if err != nil {
		return table, err
	}
	table.Step = step
	found := make([]*Onset, len(sequences))
	draws := max(leastDraws, drawsForAGroup*len(sequences))
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i, s := range sequences {
		if s.total().N >= minGroup {
			group.Go(func() error {
				onset, err := s.onset(draws)
				found[i] = onset
				return err
			})
		}
	}
	if err := group.Wait(); err != nil {
		return table, fmt.Errorf("onset by %s: %w", by, err)
	}
	for i, s := range sequences {
		switch {
		case s.total().N < minGroup:
			table.TooFew = append(table.TooFew, s.group)
		case found[i] == nil:
			table.NoChange = append(table.NoChange, s.group)
		default:
			table.Onsets = append(table.Onsets, *found[i])
		}
	}
	return table, adjustOnsets(table.Onsets)
}

// adjustOnsets turns the p of all groups into q and puts the clearest first.
func adjustOnsets(onsets []Onset) error {
	p := make([]float64, len(onsets))
	for i, onset := range onsets {
		p[i] = onset.P
	}
	q, err := stats.BenjaminiHochberg(p)
	if err != nil {
		return err
	}
	for i := range onsets {
		onsets[i].Q = &q[i]
	}
	slices.SortStableFunc(onsets, func(a, b Onset) int {
		return cmp.Or(cmp.Compare(a.P, b.P), cmp.Compare(b.N, a.N), cmp.Compare(a.Group, b.Group))
	})
	return nil
}

// sequence is a group's outcomes in order of time.
type sequence struct {
	group   string
	starts  []time.Time
	periods []stats.Proportion
}

type sequenceRow struct {
	GroupName string
	Starts    time.Time
	N, Count  int64
}

// readSequences reads the outcomes of all groups, by day or by week.
func readSequences(ctx context.Context, h *history.History, by, step string, f Filter) ([]sequence, error) {
	if err := oneOf("onset by", by, OnsetGroupings); err != nil {
		return nil, err
	}
	rows, err := history.Select[sequenceRow](ctx, h, "measures/onset", f.with(history.Params{"by": by, "step": step}))
	if err != nil {
		return nil, err
	}
	var sequences []sequence
	for _, row := range rows {
		if len(sequences) == 0 || sequences[len(sequences)-1].group != row.GroupName {
			sequences = append(sequences, sequence{group: row.GroupName})
		}
		last := &sequences[len(sequences)-1]
		last.starts = append(last.starts, row.Starts)
		last.periods = append(last.periods, stats.Proportion{Count: row.Count, N: row.N})
	}
	return sequences, nil
}

// finestSequences reads the outcomes by day, or by week where days would take too long.
func finestSequences(ctx context.Context, h *history.History, by string, f Filter) ([]sequence, string, error) {
	weeks, err := readSequences(ctx, h, by, "week", f)
	if err != nil {
		return nil, "", err
	}
	tasks := int64(0)
	for _, s := range weeks {
		tasks += s.total().N
	}
	if tasks > mostByDay {
		return weeks, "week", nil
	}
	days, err := readSequences(ctx, h, by, "day", f)
	return days, "day", err
}

func (s sequence) total() stats.Proportion {
	var all stats.Proportion
	for _, period := range s.periods {
		all.Count += period.Count
		all.N += period.N
	}
	return all
}

// onset finds the change and says how sure it is; nil where there is nothing to split.
func (s sequence) onset(draws int) (*Onset, error) {
	change, err := stats.ChangePoint(s.periods, draws, onsetSeed)
	if err != nil || !change.Defined {
		return nil, err
	}
	before, err := stats.Wilson(change.Before, stats.Level95)
	if err != nil {
		return nil, err
	}
	after, err := stats.Wilson(change.After, stats.Level95)
	if err != nil {
		return nil, err
	}
	difference, err := stats.NewcombeDifference(change.After, change.Before, stats.Level95)
	all := s.total()
	return &Onset{Group: s.group, N: all.N, Count: all.Count,
		LastBefore: s.starts[change.At-1], FirstAfter: s.starts[change.At],
		BeforeN: change.Before.N, BeforeCount: change.Before.Count, BeforeRate: change.Before.Rate(),
		BeforeLow: before.Low, BeforeHigh: before.High,
		AfterN: change.After.N, AfterCount: change.After.Count, AfterRate: change.After.Rate(),
		AfterLow: after.Low, AfterHigh: after.High,
		Difference: difference.Value, DiffLow: difference.Interval.Low, DiffHigh: difference.Interval.High,
		P: change.P, Draws: change.Draws, Seed: change.Seed}, err
}
