package quality

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// NothingChanged stands in the place of a change for pairs that differ in nothing on record.
const NothingChanged = "nothing"

// A Change is one thing that was different at the next attempt after one that did not complete: a field, a quantity, or
// nothing. It tells what went together, not what caused what.
type Change struct {
	What      string
	N         int64   // pairs in which it changed
	Completed int64   // of these, with the next attempt completed
	NotHelped int64   // of these, with the next attempt not completed either
	Share     float64 // completed of n
	Low       float64 `col:"wilson_low"`
	High      float64 `col:"wilson_high"`
	// Unchanged is completed next attempts among the pairs that could be compared and did not differ in this.
	UnchangedN         int64
	UnchangedCompleted int64
	UnchangedShare     *float64      // nil where it changed in every pair
	P                  float64       // Fisher's exact, changed against unchanged
	Q                  float64       // Benjamini-Hochberg over the rows
	Values             []ChangeValue `col:"-"`
}

// A ChangeValue is one way in which a thing changed. Of a quantity, before and after say where it lay: low, high, inside,
// or no tolerance.
type ChangeValue struct {
	Before    *string // nil: missing
	After     *string
	N         int64
	Completed int64
	Shift     *float64 // median difference of a quantity, in Unit
	Unit      *string
}

// IntoTolerance is the part of a quantity's changes that went from outside the tolerance to inside, and how many of these
// came with a completed attempt. The others moved by more than a tenth of its width.
func (c Change) IntoTolerance() stats.Proportion {
	var into stats.Proportion
	for _, v := range c.Values {
		before, after := orEmpty(v.Before), orEmpty(v.After)
		if v.Unit != nil && (before == "low" || before == "high") && after == "inside" {
			into.N += v.N
			into.Count += v.Completed
		}
	}
	return into
}

// A ChangePair is a single pair of attempts behind a change.
type ChangePair struct {
	What          string
	Shop          string
	JobNo         string
	System        string
	Position      *string
	AttemptNo     int64
	NextAttemptNo int64
	NextStartedAt time.Time
	NextOutcome   string
	Before, After *string
	ValueBefore   *float64 // of a quantity, in Unit
	ValueAfter    *float64
	Unit          *string
	SpecLow       *float64 // the next attempt's tolerance
	SpecHigh      *float64
}

// Changes ranks what was different at the next attempt after one that did not complete, over all such pairs in the
// filter: first what can be relied on most to come with a completed attempt, by the lower end of its interval. An
// empty system means all.
func Changes(ctx context.Context, h *history.History, system string, f Filter) ([]Change, error) {
	counts, err := history.Select[changeCount](ctx, h, "measures/changes",
		f.with(history.Params{"system": orNull(system)}))
	if err != nil {
		return nil, err
	}
	changes := []Change{}
	for start := 0; start < len(counts); {
		end := start
		for end < len(counts) && counts[end].What == counts[start].What {
			end++
		}
		change := gather(counts[start:end])
		if err := change.judge(); err != nil {
			return nil, fmt.Errorf("changes of %s: %w", change.What, err)
		}
		if change.N > 0 {
			changes = append(changes, change)
		}
		start = end
	}
	return rank(changes)
}

// ChangePairs lists the single pairs behind a change, the latest first; an empty what lists those of all.
func ChangePairs(ctx context.Context, h *history.History, what, system string, f Filter) ([]ChangePair, error) {
	return history.Select[ChangePair](ctx, h, "measures/change_pairs",
		f.with(history.Params{"what": orNull(what), "system": orNull(system)}))
}

type changeCount struct {
	What      string
	IsChanged bool
	ChangeValue
}

// gather sums up the counts of one thing.
func gather(counts []changeCount) Change {
	change := Change{What: counts[0].What}
	for _, count := range counts {
		if !count.IsChanged {
			change.UnchangedN += count.N
			change.UnchangedCompleted += count.Completed
			continue
		}
		change.N += count.N
		change.Completed += count.Completed
		if change.What != NothingChanged {
			change.Values = append(change.Values, count.ChangeValue)
		}
	}
	change.NotHelped = change.N - change.Completed
	return change
}

// judge compares pairs in which the thing changed with those in which it did not.
func (c *Change) judge() error {
	if c.N == 0 {
		return nil
	}
	changed := stats.Proportion{Count: c.Completed, N: c.N}
	unchanged := stats.Proportion{Count: c.UnchangedCompleted, N: c.UnchangedN}
	interval, err := stats.Wilson(changed, stats.Level95)
	if err != nil {
		return err
	}
	c.P, err = stats.FisherExact(stats.Against(changed, unchanged))
	c.Share, c.Low, c.High = changed.Rate(), interval.Low, interval.High
	c.UnchangedShare = value(unchanged.Rate(), unchanged.N > 0)
	return err
}

func rank(changes []Change) ([]Change, error) {
	p := make([]float64, len(changes))
	for i, c := range changes {
		p[i] = c.P
	}
	q, err := stats.BenjaminiHochberg(p)
	if err != nil {
		return nil, err
	}
	for i := range changes {
		changes[i].Q = q[i]
	}
	slices.SortStableFunc(changes, func(a, b Change) int {
		return cmp.Or(cmp.Compare(b.Low, a.Low), cmp.Compare(b.N, a.N), cmp.Compare(a.What, b.What))
	})
	return changes, nil
}
