package stats

import (
	"fmt"
	"math"
)

// BreslowDay tests whether the strata agree on one odds ratio. The first result carries Tarone's correction and is the
// one to use, the second is the plain statistic.
//
//	X² = sum (a - e)² / v,  v = 1 / (1/e + 1/(n1-e) + 1/(m1-e) + 1/(n0-m1+e))
//	Tarone's = X² - (sum (a - e))² / sum v
//
// where e is the count a expected with the stratum's margins if its odds ratio were that of Mantel and Haenszel.
//
// Source: Breslow & Day (1980) Statistical Methods in Cancer Research 1, section 4.4, eq. 4.30 and 4.32; Tarone (1985)
// Biometrika 72:91-95.
//
// Input: one table a stratum, in any order, counts from 0. Only informative strata count; the degrees of freedom are
// their number less 1. Not defined with fewer than two of them, or where the Mantel-Haenszel odds ratio is not. A
// negative count is an error.
func BreslowDay(strata []Table2x2) (tarone, plain ChiSquared, err error) {
	if err := checkStrata(strata); err != nil {
		return ChiSquared{}, ChiSquared{}, fmt.Errorf("breslow-day: %w", err)
	}
	informative := informativeOf(strata)
	sums := robinsSums(informative)
	if len(informative) < 2 || sums.r == 0 || sums.s == 0 {
		return ChiSquared{}, ChiSquared{}, nil
	}
	statistic, off, variance := 0.0, 0.0, 0.0
	for _, t := range informative {
		e, v := expectedAt(t, sums.r/sums.s)
		distance := float64(t.A) - e
		statistic += float64(distance*distance) / v
		off += distance
		variance += v
	}
	df := len(informative) - 1
	corrected := math.Max(0, statistic-float64(off*off)/variance)
	return chiSquaredTest(corrected, df), chiSquaredTest(statistic, df), nil
}

// expectedAt is the count a that the table would hold with its margins and the given odds ratio, and its variance. The
// count solves the quadratic
//
//	(psi-1) e² - (psi (n1+m1) + n0 - m1) e + psi n1 m1 = 0,
//
// taken at the root between the margins in the form that does not cancel, which also serves psi = 1.
func expectedAt(t Table2x2, psi float64) (e, variance float64) {
	n1, n0 := float64(t.A+t.B), float64(t.C+t.D)
	m1 := float64(t.A + t.C)
	linear := float64(psi*(n1+m1)) + n0 - m1
	root := math.Sqrt(math.Max(0, float64(linear*linear)-4*float64(psi*(psi-1))*float64(n1*m1)))
	if linear > 0 {
		e = 2 * psi * n1 * m1 / (linear + root)
	} else {
		e = (root - linear) / (2 * (1 - psi))
	}
	variance = 1 / (1/e + 1/(n1-e) + 1/(m1-e) + 1/(n0-m1+e))
	return e, variance
}
