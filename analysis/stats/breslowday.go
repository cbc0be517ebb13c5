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
		distance, v := distanceAt(t, sums.r/sums.s)
		statistic += float64(distance*distance) / v
		off += distance
		variance += v
	}
	df := len(informative) - 1
	corrected := math.Max(0, statistic-float64(off*off)/variance)
	return chiSquaredTest(corrected, df), chiSquaredTest(statistic, df), nil
}

// distanceAt is how far the count a lies above the one that the table would hold with its margins and the odds ratio psi,
// and the variance of a. The expected count e solves
//
//	(psi-1) e² - (psi (n1+m1) + n0 - m1) e + psi n1 m1 = 0.
//
// The table is turned so that e stands in the smaller row and column, rows being the smaller margin; then nothing cancels,
// not even where a cell of a few units stands beside one of millions.
func distanceAt(t Table2x2, psi float64) (distance, variance float64) {
	sign := 1.0
	if t.A+t.B > t.C+t.D {
		t, psi, sign = Table2x2{t.C, t.D, t.A, t.B}, 1/psi, -sign
	}
	if t.A+t.C > t.B+t.D {
		t, psi, sign = Table2x2{t.B, t.A, t.D, t.C}, 1/psi, -sign
	}
	if t.B > t.C {
		t.B, t.C = t.C, t.B
	}
	n1, m1, apart := float64(t.A+t.B), float64(t.A+t.C), float64(t.D-t.A)
	// The square under the root, written as a sum of terms that are not negative.
	root := math.Sqrt(float64(float64(psi*psi)*float64((n1-m1)*(n1-m1))) +
		float64(2*psi*(float64((n1+m1)*apart)+2*float64(n1*m1))) + float64(apart*apart))
	a := 2 * float64(psi*n1) * m1 / (float64(psi*(n1+m1)) + apart + root)
	d := apart + a
	// The other two follow from a d / (b c) = psi and c - b = m1 - n1.
	product := a * (d / psi)
	b := 2 * product / ((m1 - n1) + math.Sqrt(float64((m1-n1)*(m1-n1))+4*float64(product)))
	c := b + (m1 - n1)
	distance = sign * (float64(t.A) - a)
	if b < a {
		distance = sign * (b - float64(t.B))
	}
	return distance, 1 / (1/a + 1/b + 1/c + 1/d)
}
