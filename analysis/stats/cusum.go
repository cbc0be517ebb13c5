package stats

import (
	"fmt"
	"math"
)

// CUSUMPlan sets up a cumulative sum of deviations from a target, all in the unit of the values.
type CUSUMPlan struct {
	Target float64
	// Slack is what a value may be off without adding to the sum, 0 or more: half of the shift to be found.
	Slack float64
	// Decision is the sum past which it signals, 0 or more: four to five standard deviations is usual.
	Decision float64
}

// CUSUMPoint holds the sums upward and downward after one more value, both 0 or more, and whether either is past the
// decision.
type CUSUMPoint struct {
	High, Low             float64
	SignalHigh, SignalLow bool
}

// CUSUM draws the tabular cumulative sum chart.
//
//	high_t = max(0, high_(t-1) + x_t - target - slack),  low_t = max(0, low_(t-1) + target - slack - x_t)
//	signal where a sum is larger than the decision
//
// Source: Page (1954) Biometrika 41:100-115; NIST/SEMATECH e-Handbook 6.3.2.3.
//
// Input: finite values in order of time. Sums start at 0 and go on after a signal. No values give no points. A value that
// is not finite or a plan outside its bounds is an error.
func CUSUM(values []float64, plan CUSUMPlan) ([]CUSUMPoint, error) {
	if err := checkValues(values); err != nil {
		return nil, fmt.Errorf("cusum: %w", err)
	}
	if err := checkValues([]float64{plan.Target, plan.Slack, plan.Decision}); err != nil {
		return nil, fmt.Errorf("cusum: plan: %w", err)
	}
	if plan.Slack < 0 || plan.Decision < 0 {
		return nil, fmt.Errorf("cusum: slack %v and decision %v: neither is negative", plan.Slack, plan.Decision)
	}
	points := make([]CUSUMPoint, len(values))
	high, low := 0.0, 0.0
	for i, x := range values {
		high = math.Max(0, high+(x-plan.Target-plan.Slack))
		low = math.Max(0, low+(plan.Target-plan.Slack-x))
		points[i] = CUSUMPoint{High: high, Low: low, SignalHigh: high > plan.Decision, SignalLow: low > plan.Decision}
	}
	return points, nil
}

// RateCUSUMPlan sets up a cumulative sum that watches a rate.
type RateCUSUMPlan struct {
	// Expected is the rate in good order, Feared the one to be found; both above 0 and below 1, and not equal.
	Expected float64
	Feared   float64
	// Decision is the sum past which it signals, 0 or more. With log(m), good order gives a false signal at most once in m
	// units on average (Lorden 1971, Ann. Math. Stat. 42:1897-1908).
	Decision float64
}

// RateCUSUMPoint is the sum after one more period, 0 or more, and whether it is past the decision.
type RateCUSUMPoint struct {
	Sum    float64
	Signal bool
}

// RateCUSUM draws the cumulative sum of how much better the feared rate explains each period than the expected one.
//
//	s_t = max(0, s_(t-1) + x log(p1/p0) + (n-x) log((1-p1)/(1-p0)))
//
// with x hits among n units, p0 the expected and p1 the feared rate; a feared rate below the expected one watches for a
// fall.
//
// Source: Page (1954) Biometrika 41:100-115 for the likelihood-ratio form; for proportions Reynolds & Stoumbos (1999) J.
// Quality Technology 31:87-108.
//
// Input: periods in order of time, or single units as periods of one; n = 0 changes nothing. An impossible count or a plan
// outside its bounds is an error.
func RateCUSUM(periods []Proportion, plan RateCUSUMPlan) ([]RateCUSUMPoint, error) {
	if err := checkGroups(periods); err != nil {
		return nil, fmt.Errorf("cusum of rates: %w", err)
	}
	p0, p1 := plan.Expected, plan.Feared
	if !(p0 > 0 && p0 < 1 && p1 > 0 && p1 < 1) || p0 == p1 || !(plan.Decision >= 0) || math.IsInf(plan.Decision, 1) {
		return nil, fmt.Errorf("cusum of rates: rates %v and %v, decision %v: the rates differ and lie above 0 and below 1, the decision is not negative",
			p0, p1, plan.Decision)
	}
	perHit, perMiss := math.Log(p1/p0), math.Log1p(-p1)-math.Log1p(-p0)
	points := make([]RateCUSUMPoint, len(periods))
	sum := 0.0
	for i, p := range periods {
		sum = math.Max(0, sum+(float64(float64(p.Count)*perHit)+float64(float64(p.rest())*perMiss)))
		points[i] = RateCUSUMPoint{Sum: sum, Signal: sum > plan.Decision}
	}
	return points, nil
}
