package stats

import (
	"fmt"
	"math"
)

// Funnel holds the limits between which the rate of a group of a given size lies by chance, if its true rate is the pooled
// one.
type Funnel struct {
	// Limits95 are passed by chance on each side with a probability of 2.5 %: one group in twenty.
	Limits95 Interval
	// Limits998 are passed by chance on each side with a probability of 0.1 %: one group in five hundred.
	Limits998 Interval
}

// FunnelLimits gives the exact binomial limits of a funnel plot, smoothed between counts.
//
//	limit = (r - (F(r) - a) / (F(r) - F(r-1))) / n,  r the smallest count with F(r) >= a,
//	a = 0.025, 0.975 (95 %) and 0.001, 0.999 (99.8 %), cut at 0 and 1
//
// Source: Spiegelhalter (2005) Stat. Med. 24:1185-1202, appendix A.1.1. F(-1) is 0; an upper limit with r = n is 1, for
// no count lies above it.
//
// Input: the pooled rate from 0 to 1; n, the group's units, 1 or more, up to ten million and over. Limits are rates.
// Anything else is an error.
func FunnelLimits(pooled float64, n int64) (Funnel, error) {
	if err := checkProbability("pooled rate", pooled); err != nil {
		return Funnel{}, fmt.Errorf("funnel limits: %w", err)
	}
	if n < 1 || n > maxUnits {
		return Funnel{}, fmt.Errorf("funnel limits: %d units: a group has at least one", n)
	}
	law := binomial{n: n, p: pooled, q: 1 - pooled}
	return Funnel{
		Limits95:  Interval{Low: funnelLimit(law, 0.025), High: upperFunnelLimit(law, 0.975)},
		Limits998: Interval{Low: funnelLimit(law, 0.001), High: upperFunnelLimit(law, 0.999)},
	}, nil
}

// funnelLimit is the interpolated limit with the share a of the distribution below it.
func funnelLimit(law binomial, a float64) float64 {
	r, upTo, mass := law.quantile(a)
	return cut((float64(r)-(upTo-a)/mass)/float64(law.n), 0, 1)
}

// upperFunnelLimit is funnelLimit, but 1 where only the largest count reaches the share a.
func upperFunnelLimit(law binomial, a float64) float64 {
	if r, _, _ := law.quantile(a); r == law.n {
		return 1
	}
	return math.Min(1, funnelLimit(law, a))
}
