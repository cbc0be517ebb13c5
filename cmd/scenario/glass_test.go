package main

import (
	"math"
	"testing"
)

// chi95 is the 95 % point of chi-squared with one degree of freedom
// (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
const chi95 = 3.841

// versus is a two-by-two table of aftermarket against the maker's own glass.
type versus struct{ aftermarket, oem tally }

// chi2 is Pearson's chi-squared of the table.
func (v versus) chi2() float64 {
	a, b := float64(v.aftermarket.events), float64(v.aftermarket.n-v.aftermarket.events)
	c, d := float64(v.oem.events), float64(v.oem.n-v.oem.events)
	n := a + b + c + d
	return n * math.Pow(a*d-b*c, 2) / ((a + b) * (c + d) * (a + c) * (b + d))
}

// All models together, aftermarket glass looks much worse; within models,
// by Mantel and Haenszel (1959) with continuity correction, it does not.
func TestAftermarketEffectFadesWithinModels(t *testing.T) {
	crude, strata := versus{}, map[string]*versus{}
	for _, task := range cameraTasks(t) {
		if strata[task.model] == nil {
			strata[task.model] = &versus{}
		}
		switch task.source {
		case "aftermarket":
			crude.aftermarket.add(!task.firstPass)
			strata[task.model].aftermarket.add(!task.firstPass)
		case "oem":
			crude.oem.add(!task.firstPass)
			strata[task.model].oem.add(!task.firstPass)
		}
	}
	if crude.aftermarket.rate() < 1.5*crude.oem.rate() || crude.chi2() < 2*chi95 {
		t.Errorf("crude: aftermarket %v, oem %v, chi-squared %.2f; want a plain difference", crude.aftermarket, crude.oem, crude.chi2())
	}
	odds, chi2 := mantelHaenszel(strata)
	if chi2 > chi95 || odds < 0.75 || odds > 1.33 {
		t.Errorf("within models: odds ratio %.2f, chi-squared %.2f; want none", odds, chi2)
	}
}

// mantelHaenszel sums over strata in any order: integers and thousandths are
// all that the comparison needs.
func mantelHaenszel(strata map[string]*versus) (odds, chi2 float64) {
	var above, below, seen, expected, variance float64
	for _, v := range strata {
		a, n1 := float64(v.aftermarket.events), float64(v.aftermarket.n)
		c, n0 := float64(v.oem.events), float64(v.oem.n)
		n, m := n1+n0, a+c
		if n1 == 0 || n0 == 0 || n < 2 {
			continue
		}
		above, below = above+a*(n0-c)/n, below+(n1-a)*c/n
		seen, expected = seen+a, expected+n1*m/n
		variance += n1 * n0 * m * (n - m) / (n * n * (n - 1))
	}
	return above / below, math.Pow(math.Max(0, math.Abs(seen-expected)-0.5), 2) / variance
}
