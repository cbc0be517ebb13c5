package stats

import (
	"fmt"
	"math"
)

// Stratified is what the tables of several strata say together.
type Stratified struct {
	// Strata counts the informative ones: those that hold both groups and both results.
	Strata int
	// OddsRatio is the common one, not defined where a sum in it is 0.
	OddsRatio Estimate
	// Difference is the sum over the strata of (ad - bc)/n: above 0 where the group has the property more often, and there
	// even where a sum in the odds ratio is 0.
	Difference float64
	// Test asks whether it is 1; not defined where no stratum is informative.
	Test ChiSquared
}

// MantelHaenszel compares group and reference within strata and pools what the strata say.
//
//	odds ratio = R / S,  R = sum a d / n,  S = sum b c / n
//	variance of its logarithm = sum P R_i / (2 R²) + sum (P S_i + Q R_i) / (2 R S) + sum Q S_i / (2 S²)
//	    with P = (a+d)/n, Q = (b+c)/n in each stratum
//	chi-squared = (|sum (a - E)| - h)² / sum V on 1 degree of freedom
//	    with E = n1 m1 / n, V = n1 n0 m1 m0 / (n² (n-1)), h = 1/2 but no more than |sum (a - E)|
//
// Source: Mantel & Haenszel (1959) J. Natl. Cancer Inst. 22:719-748; interval Robins, Breslow & Greenland (1986)
// Biometrics 42:311-323.
//
// Input: one table a stratum, in any order, counts from 0; level between 0 and 1. Strata that are not informative change
// nothing. With one informative stratum the odds ratio is the plain one. A negative count is an error.
func MantelHaenszel(strata []Table2x2, level float64) (Stratified, error) {
	return MantelHaenszelInClusters(strata, 1, level)
}

// MantelHaenszelInClusters is MantelHaenszel where units come in clusters that are alike: the variance of the logarithm is
// multiplied by their design effect, and chi-squared is divided by it.
//
// Source: as Clusters.DesignEffect; that one effect is taken for all strata is our own rule.
//
// Input: as MantelHaenszel; a design effect below 1 is an error.
func MantelHaenszelInClusters(strata []Table2x2, designEffect, level float64) (Stratified, error) {
	if err := checkStrata(strata); err != nil {
		return Stratified{}, fmt.Errorf("mantel-haenszel: %w", err)
	}
	if err := checkLevel(level); err != nil {
		return Stratified{}, fmt.Errorf("mantel-haenszel: %w", err)
	}
	if !(designEffect >= 1) {
		return Stratified{}, fmt.Errorf("mantel-haenszel: design effect %v: it is 1 or more", designEffect)
	}
	informative := informativeOf(strata)
	sums := robinsSums(informative)
	return Stratified{
		Strata:     len(informative),
		OddsRatio:  sums.oddsRatio(designEffect, level),
		Difference: sums.r - sums.s,
		Test:       cochranMantelHaenszel(informative, designEffect),
	}, nil
}

// informativeOf keeps the strata that hold both groups and both results.
func informativeOf(strata []Table2x2) []Table2x2 {
	var kept []Table2x2
	for _, t := range strata {
		if t.Informative() {
			kept = append(kept, t)
		}
	}
	return kept
}

// oddsSums are the sums that the pooled odds ratio and its variance are made of.
type oddsSums struct {
	r, s, pr, mixed, qs float64
}

// robinsSums adds the strata up. Counts are divided by n before they are multiplied: the product of two counts of ten million
// would leave no room for a third.
func robinsSums(strata []Table2x2) oddsSums {
	var sums oddsSums
	for _, t := range strata {
		n := float64(t.total())
		p, q := float64(t.A+t.D)/n, float64(t.B+t.C)/n
		r, s := float64(t.A)*(float64(t.D)/n), float64(t.B)*(float64(t.C)/n)
		sums.r += float64(r)
		sums.s += float64(s)
		sums.pr += float64(p * r)
		sums.mixed += float64(p*s) + float64(q*r)
		sums.qs += float64(q * s)
	}
	return sums
}

// oddsRatio is R/S with the Robins-Breslow-Greenland interval; not defined where either sum is 0.
func (m oddsSums) oddsRatio(designEffect, level float64) Estimate {
	if m.r == 0 || m.s == 0 {
		return Estimate{}
	}
	variance := m.pr/(2*float64(m.r*m.r)) + m.mixed/(2*float64(m.r*m.s)) + m.qs/(2*float64(m.s*m.s))
	ratio := m.r / m.s
	return Estimate{Value: ratio, Interval: logInterval(ratio, math.Sqrt(float64(variance*designEffect)), level), Defined: true}
}

// cochranMantelHaenszel is the test that the common odds ratio is 1, with continuity correction. Every informative
// stratum has a variance above 0.
func cochranMantelHaenszel(strata []Table2x2, designEffect float64) ChiSquared {
	if len(strata) == 0 {
		return ChiSquared{}
	}
	off, variance := 0.0, 0.0
	for _, t := range strata {
		n := float64(t.total())
		n1, n0 := float64(t.A+t.B), float64(t.C+t.D)
		m1, m0 := float64(t.A+t.C), float64(t.B+t.D)
		off += float64(t.A) - float64(n1/n*m1)
		variance += float64((n1 / n) * (n0 / n) * m1 * (m0 / (n - 1)))
	}
	distance := math.Abs(off)
	distance -= math.Min(0.5, distance)
	return chiSquaredTest(float64(distance*distance)/variance/designEffect, 1)
}
