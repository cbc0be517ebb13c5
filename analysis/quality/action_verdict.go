package quality

import (
	"maps"
	"math"
	"slices"

	"plumbline/analysis/stats"
)

// judge compares after with before, and with the others.
func (r actionRow) judge(counts []actionCount) (Action, error) {
	a := Action{Shop: r.Shop, SubjectKind: r.SubjectKind, Subject: r.Subject, TakenAt: r.TakenAt, What: r.What, By: r.By,
		Outcome: NotFirstPass, IsOver: r.IsOver}
	var own, others sides
	alike := map[string]*sides{}
	for _, count := range counts {
		if !count.IsOwn {
			others.add(count)
			continue
		}
		own.add(count)
		if count.Stratum != nil {
			if alike[*count.Stratum] == nil {
				alike[*count.Stratum] = &sides{}
			}
			alike[*count.Stratum].add(count)
		}
	}
	if err := a.crude(own, others); err != nil {
		return a, err
	}
	var tables []stats.Table2x2
	for _, name := range slices.Sorted(maps.Keys(alike)) {
		tables = append(tables, stats.Against(alike[name].after, alike[name].before))
	}
	pooled, err := stats.MantelHaenszelInClusters(tables, r.Clusters.DesignEffect(), stats.Level95)
	a.LikeOddsRatio, a.LikeLow, a.LikeHigh = estimate(pooled.OddsRatio)
	a.LikeP, a.Alike = value(pooled.Test.P, pooled.Test.Defined), pooled.Difference
	return a, err
}

// crude fills in rates, differences, and the difference less that of the others.
//
//	(d - d0) - sqrt((d - l)² + (u0 - d0)²)  to  (d - d0) + sqrt((u - d)² + (d0 - l0)²)
//
// Source: Zou & Donner (2008) Stat. Med. 27:1693-1702, the method of variance estimates recovered, from memory.
func (a *Action) crude(own, others sides) (err error) {
	a.BeforeN, a.BeforeCount, a.AfterN, a.AfterCount = own.before.N, own.before.Count, own.after.N, own.after.Count
	a.OthersBeforeN, a.OthersBeforeCount = others.before.N, others.before.Count
	a.OthersAfterN, a.OthersAfterCount = others.after.N, others.after.Count
	if a.BeforeRate, a.BeforeLow, a.BeforeHigh, err = wilson(own.before); err != nil {
		return err
	}
	if a.AfterRate, a.AfterLow, a.AfterHigh, err = wilson(own.after); err != nil {
		return err
	}
	if a.Difference, a.DiffLow, a.DiffHigh, err = own.difference(); err != nil {
		return err
	}
	if a.OthersDifference, a.OthersLow, a.OthersHigh, err = others.difference(); err != nil {
		return err
	}
	if a.Difference != nil && a.OthersDifference != nil {
		less := *a.Difference - *a.OthersDifference
		low := less - math.Hypot(*a.Difference-*a.DiffLow, *a.OthersHigh-*a.OthersDifference)
		high := less + math.Hypot(*a.DiffHigh-*a.Difference, *a.OthersDifference-*a.OthersLow)
		a.LessLow, a.LessHigh = &low, &high
	}
	return nil
}

// wilson is a rate with its interval; nil without units.
func wilson(p stats.Proportion) (rate, low, high *float64, err error) {
	if p.N == 0 {
		return nil, nil, nil, nil
	}
	interval, err := stats.Wilson(p, stats.Level95)
	return value(p.Rate(), true), &interval.Low, &interval.High, err
}

// difference is after less before; nil where a side has no units.
func (s sides) difference() (d, low, high *float64, err error) {
	if s.before.N == 0 || s.after.N == 0 {
		return nil, nil, nil, nil
	}
	difference, err := stats.NewcombeDifference(s.after, s.before, stats.Level95)
	d, low, high = estimate(difference)
	return d, low, high, err
}

// wantedPower is the chance with which a halving must have shown before its absence says anything.
const wantedPower = 0.8

// conclude gives the verdict, in the order of the definitions: the first that holds.
func (a *Action) conclude() error {
	a.Verdict = TooEarly
	if a.BeforeN < minGroup || a.AfterN < minGroup {
		return nil
	}
	reference := *a.BeforeRate
	detectable, err := stats.DetectableRates(reference, a.AfterN, a.BeforeN, stats.UsualComparison())
	if err != nil {
		return err
	}
	a.Detectable = &detectable
	power, err := stats.TwoRatePower(reference/2, reference, a.AfterN, a.BeforeN, stats.UsualComparison())
	switch {
	case a.LikeQ != nil && *a.LikeQ < 0.05:
		a.Verdict = a.change()
	case !a.IsOver && power < wantedPower:
	default:
		a.Verdict = NoEffectShown
	}
	return err
}

// change names a change that is told by what the others did meanwhile.
func (a *Action) change() ActionVerdict {
	switch {
	case a.OthersBeforeN < minGroup || a.OthersAfterN < minGroup:
		return Alone
	case a.Alike < 0 && *a.LessHigh < 0:
		return Better
	case a.Alike > 0 && *a.LessLow > 0:
		return Worse
	}
	return WithTheOthers
}
