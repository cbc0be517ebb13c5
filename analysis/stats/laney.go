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

// Period is one period of a trend. Count is hits (p chart, 0 to N) or occurrences (u chart, 0 or more) among N units.
// InBaseline periods set the centre and the spread. A period that is not Usable is drawn with its rate and limits, but
// takes no part in signals: its outcome is not yet known in full.
type Period struct {
	Count      int64
	N          int64
	InBaseline bool
	Usable     bool
}

// ChartPoint is one period on a chart. Where the period has no units, Defined is false and there are neither numbers nor
// signals.
type ChartPoint struct {
	Rate    float64
	Lower   float64
	Upper   float64
	Defined bool
	Signals []Signal
}

// Chart is a control chart: centre, spread and one point a period, in the order given. SigmaZ compares the spread between
// baseline periods with the one that chance gives within them; SigmaZDefined is false where fewer than two baseline
// periods have units or the standard error is 0, and the limits are then those of chance. Defined is false where no
// period has units at all.
type Chart struct {
	Center        float64
	SigmaZ        float64
	SigmaZDefined bool
	Points        []ChartPoint
	Defined       bool
}

// PChart draws Laney's p' chart of the share of units with a property.
//
//	centre c = sum of counts / sum of units over the baseline,  se = sqrt(c (1-c) / n),  z = (rate - c) / se
//	sigma_z = mean |z - z before| over the baseline / 1.128
//	limits = c -+ 3 se max(1, sigma_z), cut at 0 and 1
//
// Source: Laney (2002) Quality Engineering 14:531-537; that sigma_z below 1 does not narrow the limits is our own rule,
// after the plain p chart (NIST/SEMATECH e-Handbook 6.3.3.2).
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
	return chart(periods, func(center float64) float64 { return float64(center * (1 - center)) }, 1), nil
}

// UChart draws Laney's u' chart of occurrences a unit, of which one unit can hold several.
//
//	as PChart, with se = sqrt(c / n) and limits cut at 0 only
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
	return chart(periods, func(center float64) float64 { return center }, math.Inf(1)), nil
}

// chart draws a chart whose variance of one unit is unitVariance(centre) and whose limits are cut at 0 and highest.
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
		sigma := float64(math.Sqrt(variance/float64(p.N)) * widening)
		c.Points = append(c.Points, ChartPoint{
			Rate:    rateOf(p),
			Lower:   math.Max(0, c.Center-float64(limitSigmas*sigma)),
			Upper:   math.Min(highest, c.Center+float64(limitSigmas*sigma)),
			Defined: true,
		})
		if p.Usable {
			seen = append(seen, reading{value: rateOf(p), center: c.Center, sigma: sigma, at: i})
		}
	}
	for i := range seen {
		c.Points[seen[i].at].Signals = nelsonSignals(seen[:i+1])
	}
	return c
}

// baselineOf keeps the baseline periods that have units, or all periods that have if there is no such.
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
