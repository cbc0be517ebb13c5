package quality

import (
	"maps"
	"math"
	"slices"

	"plumbline/analysis/stats"
)

// A Call says, in a word, how a group stands against the others like with like. Empty: not told from chance, or too small
// to ask.
type Call string

// The calls.
const (
	Higher    Call = "higher"
	Lower     Call = "lower"
	NoneAlike Call = "not_comparable" // most of its units have no like among the others
)

// leastCovered is the share of a group's units that must have their like among the others before it can be called.
// Source: definitions, Like with like.
const leastCovered = 0.5

// A Group is one group of units with the rate of an outcome. Rates, limits and shares are from 0 to 1. Like figures compare
// it with all other groups together within strata of like units; nil is what the counts do not determine.
type Group struct {
	Group         string
	N             int64
	Count         int64
	Rate          float64
	WilsonLow     float64
	WilsonHigh    float64
	Shrunken      float64
	Funnel95Low   float64  `col:"funnel_95_low"`
	Funnel95High  float64  `col:"funnel_95_high"`
	Funnel998Low  float64  `col:"funnel_998_low"`
	Funnel998High float64  `col:"funnel_998_high"`
	P             float64  // crude, against all other groups together
	Q             *float64 // only groups of at least 10 units take part in the adjustment
	DesignEffect  float64  // of the whole comparison: above 1 the tasks of a job are alike and tell less than their number
	LikeN         int64    // units that have their like among the others
	LikeCount     int64
	Expected      float64 // of LikeN, if each stratum had the others' rate
	Covered       float64 // LikeN of N
	LikeOddsRatio *float64
	LikeLow       *float64
	LikeHigh      *float64
	LikeP         *float64
	LikeQ         *float64
	Call          Call
	Difference    float64 `col:"-"` // Mantel and Haenszel's: above 0 where like with like the group has the higher rate
}

// IsDifferent is the one test by which a group is called different from the others.
func (g Group) IsDifferent() bool { return g.Call == Higher || g.Call == Lower }

func (g Group) proportion() stats.Proportion { return stats.Proportion{Count: g.Count, N: g.N} }

// judge compares the group with chance, and with all other groups together as they are.
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
	g.Rate, g.WilsonLow, g.WilsonHigh = own.Rate(), interval.Low, interval.High
	g.Shrunken = spread.Shrink(own)
	g.Funnel95Low, g.Funnel95High = funnel.Limits95.Low, funnel.Limits95.High
	g.Funnel998Low, g.Funnel998High = funnel.Limits998.Low, funnel.Limits998.High
	g.P, err = stats.FisherInClusters(stats.Against(own, without(pooled, own)), g.DesignEffect)
	return err
}

// strata are units by what is alike.
type strata map[string]stats.Proportion

// judgeAlike compares the group's units with all other groups together within strata.
func (g *Group) judgeAlike(alike, all strata) error {
	var tables []stats.Table2x2
	for _, name := range slices.Sorted(maps.Keys(alike)) {
		own := alike[name]
		others := without(all[name], own)
		if others.N == 0 {
			continue
		}
		tables = append(tables, stats.Against(own, others))
		g.LikeN, g.LikeCount = g.LikeN+own.N, g.LikeCount+own.Count
		g.Expected += float64(float64(own.N) * others.Rate())
	}
	g.Covered = float64(g.LikeN) / float64(g.N)
	pooled, err := stats.MantelHaenszelInClusters(tables, g.DesignEffect, stats.Level95)
	if err != nil {
		return err
	}
	g.LikeOddsRatio, g.LikeLow, g.LikeHigh = estimate(pooled.OddsRatio)
	g.LikeP = value(pooled.Test.P, pooled.Test.Defined)
	g.Difference = pooled.Difference
	return nil
}

// call follows the order of the definitions.
func (g *Group) call() Call {
	switch {
	case g.N >= minGroup && g.Covered < leastCovered:
		return NoneAlike
	case g.LikeQ == nil || *g.LikeQ >= 0.05:
		return ""
	case math.Signbit(g.Difference):
		return Lower
	}
	return Higher
}
