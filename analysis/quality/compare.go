package quality

import (
	"context"
	"fmt"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// Groupings lists what groups can be compared by.
var Groupings = []string{
	"technician", "bay", "equipment", "target", "supplier", "brand", "source", "model", "method", "software_version",
	"shop", "insurer", "make", "system", "hour", "weekday",
}

// A Comparison is groups side by side.
type Comparison struct {
	By      string
	Outcome Outcome
	Groups  []Group
	Pooled  stats.Proportion // all groups together; a job that is in several groups counts in each
	LeftOut int64            // units that lack the value and so are in no group
}

// minGroup is the size from which a group takes part in the adjustment of p to q.
// Source: definitions, Compare.
const minGroup = 10

// Compare puts the groups of a grouping side by side, the largest first. Systems are compared by not_first_pass only.
func Compare(ctx context.Context, h *history.History, by string, outcome Outcome, f Filter) (Comparison, error) {
	return compareWithout(ctx, h, by, outcome, f, nil)
}

// compareWithout is Compare with the units of some groups, of any grouping, taken out.
func compareWithout(ctx context.Context, h *history.History, by string, outcome Outcome, f Filter, out []groupKey) (Comparison, error) {
	c := Comparison{By: by, Outcome: outcome}
	if by == "system" && outcome != NotFirstPass {
		return c, fmt.Errorf("a %s is of a whole job and not of one system: compare by system takes %s only", outcome, NotFirstPass)
	}
	rows, err := history.Select[groupRow](ctx, h, "measures/compare",
		f.with(history.Params{"by": by, "outcome": string(outcome), "without": joinedKeys(out)}))
	if err != nil {
		return c, err
	}
	groups, all := c.count(rows)
	designEffect := 1.0
	if outcome == NotFirstPass {
		clusters, err := only[stats.Clusters](ctx, h, "measures/compare_clusters",
			f.with(history.Params{"by": by, "without": joinedKeys(out)}))
		if err != nil {
			return c, err
		}
		designEffect = clusters.DesignEffect()
	}
	if err := c.judge(groups, all, designEffect); err != nil {
		return c, fmt.Errorf("compare %s by %s: %w", outcome, by, err)
	}
	return c, nil
}

// A groupKey names a group of a grouping.
type groupKey struct{ grouping, group string }

// text is the key as the queries write it.
func (k groupKey) text() string { return k.grouping + "\x1f" + k.group }

func joinedKeys(keys []groupKey) any {
	texts := make([]string, len(keys))
	for i, key := range keys {
		texts[i] = key.text()
	}
	return orNull(strings.Join(texts, "\x1e"))
}

// groupRow is the units of one group within one stratum.
type groupRow struct {
	GroupName *string
	Stratum   *string
	N         int64
	Count     int64
}

// count makes the groups, whose rows come in one piece, and gives the strata of each and of all together.
func (c *Comparison) count(rows []groupRow) (groups []strata, all strata) {
	all = strata{}
	for _, row := range rows {
		if row.GroupName == nil {
			c.LeftOut += row.N
			continue
		}
		if last := len(c.Groups) - 1; last < 0 || c.Groups[last].Group != *row.GroupName {
			c.Groups, groups = append(c.Groups, Group{Group: *row.GroupName}), append(groups, strata{})
		}
		last, units := len(groups)-1, stats.Proportion{Count: row.Count, N: row.N}
		c.Groups[last].N += row.N
		c.Groups[last].Count += row.Count
		c.Pooled = sum(c.Pooled, units)
		if row.Stratum != nil {
			groups[last][*row.Stratum] = units
			all[*row.Stratum] = sum(all[*row.Stratum], units)
		}
	}
	return groups, all
}

func sum(one, other stats.Proportion) stats.Proportion {
	return stats.Proportion{Count: one.Count + other.Count, N: one.N + other.N}
}

// without is what is left of the whole once the part is taken out.
func without(whole, part stats.Proportion) stats.Proportion {
	return stats.Proportion{Count: whole.Count - part.Count, N: whole.N - part.N}
}

// judge fills in what the counts of all groups together say of each.
func (c *Comparison) judge(groups []strata, all strata, designEffect float64) error {
	if len(c.Groups) == 0 {
		return nil
	}
	proportions := make([]stats.Proportion, len(c.Groups))
	for i, group := range c.Groups {
		proportions[i] = group.proportion()
	}
	spread, err := stats.BetaBinomialFit(proportions)
	if err != nil {
		return err
	}
	for i := range c.Groups {
		group := &c.Groups[i]
		group.DesignEffect = designEffect
		if err := group.judge(c.Pooled, spread); err != nil {
			return err
		}
		if err := group.judgeAlike(groups[i], all); err != nil {
			return err
		}
	}
	return c.call()
}

// call turns p into q and says which groups are called.
func (c *Comparison) call() error {
	large := func(g *Group) *float64 { return value(g.P, g.N >= minGroup) }
	if err := adjust(c.Groups, large, func(g *Group, q float64) { g.Q = &q }); err != nil {
		return err
	}
	alike := func(g *Group) *float64 {
		if g.N < minGroup || g.Covered < leastCovered {
			return nil
		}
		return g.LikeP
	}
	if err := adjust(c.Groups, alike, func(g *Group, q float64) { g.LikeQ = &q }); err != nil {
		return err
	}
	for i := range c.Groups {
		c.Groups[i].Call = c.Groups[i].call()
	}
	return nil
}

// adjust turns the p of those rows that have one into q, after Benjamini and Hochberg.
func adjust[Row any](rows []Row, p func(*Row) *float64, set func(*Row, float64)) error {
	var tested []*Row
	var values []float64
	for i := range rows {
		if value := p(&rows[i]); value != nil {
			tested, values = append(tested, &rows[i]), append(values, *value)
		}
	}
	q, err := stats.BenjaminiHochberg(values)
	for i, row := range tested {
		if err == nil {
			set(row, q[i])
		}
	}
	return err
}
