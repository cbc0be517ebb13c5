package stats

import (
	"fmt"
	"math"
)

// sameProbability is the relative distance within which two tables count as equally probable, so that rounding does not
// drop the mirror image of the table seen.
const sameProbability = 1e-7

// FisherExact gives the two-sided p of Fisher's exact test that rows and columns of a table are independent: with the
// margins held, the probability of all tables no more probable than the one seen.
//
//	p = sum of P(k) over all k with P(k) <= P(a) (1 + 1e-7)
//	P(k) = C(a+b, k) C(c+d, a+c-k) / C(n, a+c)
//
// Source: Fisher (1935) J. R. Stat. Soc. 98:39-54; the two-sided rule Freeman & Halton (1951) Biometrika 38:141-149.
//
// Input: counts from 0, up to ten million units and more: only the terms that matter are added up. A table with an empty
// row or column has p = 1. p lies above 0 and up to 1; below 5e-324 that number stands for it. A negative count is an
// error.
func FisherExact(t Table2x2) (float64, error) {
	if err := t.check(); err != nil {
		return 0, fmt.Errorf("fisher exact: %w", err)
	}
	if !t.Informative() {
		return 1, nil
	}
	law := hypergeometric{hits: t.A + t.C, n: t.A + t.B, total: t.total()}
	limit := law.logMass(t.A) + math.Log1p(sameProbability)
	mode := law.mode()
	if law.logMass(mode) <= limit {
		return 1, nil
	}
	below := lastBelow(law, mode, limit)
	above := firstAbove(law, mode, limit)
	return asProbability(math.Exp(logSum(law.logBelow(below), law.logAbove(above)))), nil
}

// lastBelow is the largest count under the mode whose log-probability is at most limit, or one less than the smallest
// possible count. Under the mode the probabilities rise, so halving finds it.
func lastBelow(law hypergeometric, mode int64, limit float64) int64 {
	low, high := law.low()-1, mode
	for high-low > 1 {
		middle := low + (high-low)/2
		if law.logMass(middle) <= limit {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// firstAbove is the smallest count over the mode whose log-probability is at most limit, or one more than the largest
// possible count.
func firstAbove(law hypergeometric, mode int64, limit float64) int64 {
	low, high := mode, law.high()+1
	for high-low > 1 {
		middle := low + (high-low)/2
		if law.logMass(middle) <= limit {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}

// FisherInClusters is FisherExact where units come in clusters that are alike: where their design effect is above 1, p is
// no less than the tail of Pearson's chi-squared over the effect.
//
// Source: as Clusters.DesignEffect, after which chi-squared is divided by it.
//
// Input: as FisherExact; a design effect below 1 is an error.
func FisherInClusters(t Table2x2, designEffect float64) (float64, error) {
	if !(designEffect >= 1) {
		return 0, fmt.Errorf("fisher's test in clusters: design effect %v: it is 1 or more", designEffect)
	}
	p, err := FisherExact(t)
	if err != nil || designEffect == 1 || !t.Informative() {
		return p, err
	}
	pearson, _, err := PearsonChiSquared([][]int64{{t.A, t.B}, {t.C, t.D}})
	return math.Max(p, chiSquaredTail(pearson.Statistic/designEffect, 1)), err
}
