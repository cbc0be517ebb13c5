package stats

import (
	"fmt"
	"math"
)

// meanRangeOfTwo is the mean range of two standard normal values (d2 for n = 2), as rounded in tables of control chart
// factors.
const meanRangeOfTwo = 1.128

// limitSigmas is the distance of the control limits from the centre, in standard deviations.
const limitSigmas = 3

// PChart draws Laney's p' chart of the share of units with a property.
//
//	centre c = sum of counts / sum of units over the baseline,  se = sqrt(c (1-c) / n),  z = (rate - c) / se
//	sigma_z = mean |z - z before| over the baseline / 1.128
//	limits = on each side the wider of c -+ 3 se max(1, sigma_z) and r/n, cut at 0 and 1
//	    with r the largest count of which P(R < r) <= 0.00135, and the smallest of which P(R > r) <= 0.00135,
//	    R beta-binomial with parameters n, x + 1/2 and N - x + 1/2, x of N units in the baseline
//
// So the limits carry what the baseline leaves open about the centre, and hold for small counts.
//
// Source: Laney (2002) Quality Engineering 14:531-537; that sigma_z below 1 does not narrow the limits is our own rule,
// after the plain p chart (NIST/SEMATECH e-Handbook 6.3.3.2). Limits by predictive probability: Hamada (2002) J. Quality
// Technology 34:24-28 (Bayesian tolerance interval control limits), from memory; prior: see betaBinomialLaw.
//
// Input: periods in order of time, counts 0 to N. "Before" skips baseline periods without units. Where no baseline
// period has units, all periods are the baseline. The signals are those of Nelson, see Signal. An impossible count is
// an error.
func PChart(periods []Period) (Chart, error) {
	for i, p := range periods {
		if err := (Proportion{Count: p.Count, N: p.N}).check(); err != nil {
			return Chart{}, fmt.Errorf("p chart: period %d: %w", i+1, err)
		}
	}
	shares := chartKind{func(center float64) float64 { return float64(center * (1 - center)) }, betaBinomialLaw, 1}
	return shares.chart(periods), nil
}

// UChart draws Laney's u' chart of occurrences a unit, of which one unit can hold several.
//
//	as PChart, with se = sqrt(c / n), limits cut at 0 only, and R negative binomial: a Poisson count of mean n m, m
//	gamma-distributed with shape x + 1/2 and rate N
//
// Source: as PChart; the plain u chart is in NIST/SEMATECH e-Handbook 6.3.3.1.
//
// Input: as PChart, but counts may exceed N; occurrences in a period without units are an error.
func UChart(periods []Period) (Chart, error) {
	for i, p := range periods {
		if p.N < 0 || p.N > maxUnits || p.Count < 0 || p.Count > maxUnits || (p.N == 0 && p.Count > 0) {
			return Chart{}, fmt.Errorf("u chart: period %d: %d occurrences on %d units: both lie between 0 and 2^53, and without units there are none",
				i+1, p.Count, p.N)
		}
	}
	occurrences := chartKind{func(center float64) float64 { return center }, negativeBinomialLaw, math.Inf(1)}
	return occurrences.chart(periods), nil
}

// sigmaZ is the mean moving range of the baseline's z values over that of standard normal ones.
func sigmaZ(baseline []Period, center, variance float64) (float64, bool) {
	if len(baseline) < 2 || variance == 0 {
		return 0, false
	}
	sum, before := 0.0, 0.0
	for i, p := range baseline {
		z := (rateOf(p) - center) / math.Sqrt(variance/float64(p.N))
		if i > 0 {
			sum += math.Abs(z - before)
		}
		before = z
	}
	return sum / float64(len(baseline)-1) / meanRangeOfTwo, true
}

func rateOf(p Period) float64 { return float64(p.Count) / float64(p.N) }
