package stats

import (
	"math"
	"testing"
)

// What a plan, a trim or a design effect may be, to the bound itself.
func TestInputAtItsBounds(t *testing.T) {
	periods := []Proportion{{1, 10}, {2, 10}}
	for _, c := range []struct {
		what  string
		err   error
		taken bool
	}{
		{"a decision of 0", second(RateCUSUM(periods, RateCUSUMPlan{Expected: 0.1, Feared: 0.2})), true},
		{"a decision below 0", second(RateCUSUM(periods, RateCUSUMPlan{Expected: 0.1, Feared: 0.2, Decision: -1e-9})), false},
		{"no trim", second(Overdispersion([]float64{1, 2, 3}, 0)), true},
		{"a trim of just under a half", second(Overdispersion([]float64{1, 2, 3}, 0.499)), true},
		{"a trim of a half", second(Overdispersion([]float64{1, 2, 3}, 0.5)), false},
		{"a design effect of 1", second(FisherInClusters(Table2x2{1, 2, 3, 4}, 1)), true},
		{"a design effect of 1.5", second(FisherInClusters(Table2x2{1, 2, 3, 4}, 1.5)), true},
		{"a design effect below 1", second(FisherInClusters(Table2x2{1, 2, 3, 4}, 1-1e-9)), false},
	} {
		if (c.err == nil) != c.taken {
			t.Errorf("%s: %v", c.what, c.err)
		}
	}
}

// Groups that differ as much as can be leave a group without units at the mean all the same.
func TestShrinkOfNothing(t *testing.T) {
	if got := (BetaBinomial{Mean: 0.3, Rho: 1}).Shrink(Proportion{}); got != 0.3 {
		t.Errorf("a group without units is shrunk to %v", got)
	}
}

// The error of Stirling's formula falls from one n to the next by (n - 1/2) log(n/(n-1)) - 1, which follows from n! = n (n-1)!
// alone: the series has its coefficients right, and meets the table that stands for small n.
func TestStirlingError(t *testing.T) {
	for n := int64(2); n <= 60; n++ {
		want := (float64(n)-0.5)*math.Log1p(1/float64(n-1)) - 1
		if got := stirlingError(n-1) - stirlingError(n); math.Abs(got-want) > 3e-14 {
			t.Errorf("from %d to %d it falls by %v, expected %v", n-1, n, got, want)
		}
	}
}
