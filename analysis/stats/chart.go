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
	// Sigma is Laney's: the standard error of the rate times max(1, sigma_z).
	Sigma float64
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

// chartKind is what tells a chart of shares from one of occurrences: the variance of one unit, the law of the count that
// chance gives a period of n units after a baseline, and the highest rate.
type chartKind struct {
	variance func(center float64) float64
	law      func(n int64, baseline Proportion) countLaw
	highest  float64
}

// leastExpected is how many hits, and how many misses, must be expected in a period before its side of the centre says
// anything: smaller counts lie on one side by themselves.
const leastExpected = 5

// chart draws a chart. Sigma, which limits and signals go by, is the standard error times max(1, sigma_z).
func (k chartKind) chart(periods []Period) Chart {
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
	variance := k.variance(c.Center)
	c.SigmaZ, c.SigmaZDefined = sigmaZ(baseline, c.Center, variance)
	widening := math.Max(1, c.SigmaZ)
	var seen []reading
	for _, p := range periods {
		if p.N == 0 {
			c.Points = append(c.Points, ChartPoint{})
			continue
		}
		n := float64(p.N)
		r := plainReading(rateOf(p), c.Center, float64(math.Sqrt(variance/n)*widening))
		r.isSmall = float64(n*c.Center) < leastExpected || float64(n*(k.highest-c.Center)) < leastExpected
		exact := k.law(p.N, pooled).limits(limitTail)
		r.lower = math.Max(0, math.Min(r.lower, exact.Low/n))
		r.upper = math.Min(k.highest, math.Max(r.upper, exact.High/n))
		point := ChartPoint{Rate: r.value, Sigma: r.sigma, Lower: r.lower, Upper: r.upper, Defined: true}
		if p.Usable {
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
