package quality

import (
	"context"
	"fmt"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// Groupings lists what groups can be compared by.
var Groupings = []string{
	"technician", "bay", "equipment", "target", "supplier", "brand", "source", "model", "method", "software_version",
	"shop", "hour", "weekday",
}

// A Group is one group of units with the rate of an outcome. Rates and limits are from 0 to 1.
type Group struct {
	Group         string
	N             int64
	Count         int64
	Rate          float64
	WilsonLow     float64
	WilsonHigh    float64
	Shrunken      float64
	Funnel95Low   float64 `col:"funnel_95_low"`
	Funnel95High  float64 `col:"funnel_95_high"`
	Funnel998Low  float64 `col:"funnel_998_low"`
	Funnel998High float64 `col:"funnel_998_high"`
	P             float64
	Q             *float64 // only groups of at least 10 units take part in the adjustment
}

// IsDifferent is the one test by which a group is called different from the others.
func (g Group) IsDifferent() bool { return g.Q != nil && *g.Q < 0.05 }

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

// Compare puts the groups of a grouping side by side, the largest first.
func Compare(ctx context.Context, h *history.History, by string, outcome Outcome, f Filter) (Comparison, error) {
	c := Comparison{By: by, Outcome: outcome}
	rows, err := history.Select[groupRow](ctx, h, "measures/compare",
		f.with(history.Params{"by": by, "outcome": string(outcome)}))
	if err != nil {
		return c, err
	}
	for _, row := range rows {
		if row.GroupName == nil {
			c.LeftOut = row.N
			continue
		}
		c.Groups = append(c.Groups, Group{Group: *row.GroupName, N: row.N, Count: row.Count})
		c.Pooled.N += row.N
		c.Pooled.Count += row.Count
	}
	if err := c.judge(); err != nil {
		return c, fmt.Errorf("compare %s by %s: %w", outcome, by, err)
	}
	return c, nil
}

type groupRow struct {
	GroupName *string
	N         int64
	Count     int64
}

// judge fills in what the counts of all groups together say of each.
func (c *Comparison) judge() error {
	if len(c.Groups) == 0 {
		return nil
	}
	spread, err := stats.BetaBinomialFit(c.proportions())
	if err != nil {
		return err
	}
	for i := range c.Groups {
		if err := c.Groups[i].judge(c.Pooled, spread); err != nil {
			return err
		}
	}
	return c.adjust()
}

func (c *Comparison) proportions() []stats.Proportion {
	all := make([]stats.Proportion, len(c.Groups))
	for i, group := range c.Groups {
		all[i] = group.proportion()
	}
	return all
}

func (g Group) proportion() stats.Proportion { return stats.Proportion{Count: g.Count, N: g.N} }

// judge compares one group with chance, and with all other groups together.
func (g *Group) judge(pooled stats.Proportion, spread stats.BetaBinomial) error {
	own := g.proportion()
	interval, err := stats.Wilson(own, stats.Level95)
	if err != nil {
		return err
	}
	funnel, err := stats.FunnelLimits(pooled.Rate(), g.N)
	if err != nil {
		return err
	}
	others := stats.Proportion{Count: pooled.Count - g.Count, N: pooled.N - g.N}
	p, err := stats.FisherExact(stats.Against(own, others))
	if err != nil {
		return err
	}
	g.Rate, g.WilsonLow, g.WilsonHigh = own.Rate(), interval.Low, interval.High
	g.Shrunken, g.P = spread.Shrink(own), p
	g.Funnel95Low, g.Funnel95High = funnel.Limits95.Low, funnel.Limits95.High
	g.Funnel998Low, g.Funnel998High = funnel.Limits998.Low, funnel.Limits998.High
	return nil
}

// adjust turns the p of the groups that are large enough into q.
func (c *Comparison) adjust() error {
	var p []float64
	for _, group := range c.Groups {
		if group.N >= minGroup {
			p = append(p, group.P)
		}
	}
	q, err := stats.BenjaminiHochberg(p)
	if err != nil {
		return err
	}
	for i := range c.Groups {
		if c.Groups[i].N >= minGroup {
			c.Groups[i].Q, q = &q[0], q[1:]
		}
	}
	return nil
}
