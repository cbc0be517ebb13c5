package stats

import "math"

// Period is one period of a trend.
type Period struct {
	// Count is hits among the N units (p chart, 0 to N) or occurrences on them (u chart, 0 or more).
	Count int64
	N     int64
	// InBaseline periods set the centre and the spread.
	InBaseline bool
	// A period that is not Usable is drawn with its rate and limits, but takes no part in signals: its outcome is not yet
	// known in full.
	Usable bool
}

// ChartPoint is one period on a chart.
type ChartPoint struct {
	// Rate is hits or occurrences a unit.
	Rate float64
	// Lower and Upper are the control limits, cut at 0 and, for a p chart, at 1.
	Lower float64
	Upper float64
	// Defined is false where the period has no units; it then has neither numbers nor signals.
	Defined bool
	// Signals are the patterns that this period completes, in the order of Nelson's tests.
	Signals []Signal
}

// Chart is a control chart.
type Chart struct {
	// Center is the pooled rate of the baseline.
	Center float64
	// SigmaZ compares the spread between baseline periods with the one that chance gives within them; 1 is chance alone.
	SigmaZ float64
	// SigmaZDefined is false where fewer than two baseline periods have units or the standard error is 0. The limits are
	// then those of chance.
	SigmaZDefined bool
	// Points has one point a period, in the order given.
	Points []ChartPoint
	// Defined is false where no period has units at all: there is no centre.
	Defined bool
}

// chart draws a chart whose variance of one unit is unitVariance(centre) and whose limits are cut at 0 and highest. Sigma,
// which limits and signals go by, is the standard error times max(1, sigma_z).
func chart(periods []Period, unitVariance func(float64) float64, highest float64) Chart {
	baseline := baselineOf(periods)
	if len(baseline) == 0 {
		return Chart{Points: make([]ChartPoint, len(periods))}
	}
	var pooled Proportion
	for _, p := range baseline {
		pooled.Count += p.Count
		pooled.N += p.N
	}
	c := Chart{Center: pooled.Rate(), Defined: true}
	variance := unitVariance(c.Center)
	c.SigmaZ, c.SigmaZDefined = sigmaZ(baseline, c.Center, variance)
	widening := math.Max(1, c.SigmaZ)
	var seen []reading
	for i, p := range periods {
		if p.N == 0 {
			c.Points = append(c.Points, ChartPoint{})
			continue
		}
		r := reading{value: rateOf(p), center: c.Center, sigma: float64(math.Sqrt(variance/float64(p.N)) * widening)}
		point := ChartPoint{Rate: r.value, Defined: true}
		// The same products stand in the limits and in the signals, so that what is drawn outside is called outside.
		point.Lower = math.Max(0, r.center-float64(limitSigmas*r.sigma))
		point.Upper = math.Min(highest, r.center+float64(limitSigmas*r.sigma))
		if periods[i].Usable {
			seen = append(seen, r)
			point.Signals = nelsonSignals(seen)
		}
		c.Points = append(c.Points, point)
	}
	return c
}

// baselineOf keeps the baseline periods that have units, or all periods that have if there is no such: a chart without a
// past is judged by itself.
func baselineOf(periods []Period) []Period {
	var baseline, all []Period
	for _, p := range periods {
		if p.N == 0 {
			continue
		}
		all = append(all, p)
		if p.InBaseline {
			baseline = append(baseline, p)
		}
	}
	if len(baseline) == 0 {
		return all
	}
	return baseline
}
