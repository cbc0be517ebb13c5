package stats

import "fmt"

// ClopperPearson gives the exact interval of a proportion: the rates under which the count seen, or one further off, still
// has a probability of half of what the level leaves on that side.
//
//	low:   P(X >= x | n, low)  = (1 - level)/2
//	high:  P(X <= x | n, high) = (1 - level)/2
//
// Source: Clopper & Pearson (1934) Biometrika 26:404-413; Newcombe (1998) Stat. Med. 17:857-872, method 5.
//
// Input: p with N >= 1; level between 0 and 1. Bounds are rates from 0 to 1, exactly 0 with no hits and exactly 1 with
// nothing but hits. It holds the true rate at least as often as the level says, mostly more often. No units, or a count
// outside 0 to N, is an error.
func ClopperPearson(p Proportion, level float64) (Interval, error) {
	if err := checkRateInput(p, level); err != nil {
		return Interval{}, fmt.Errorf("clopper-pearson interval: %w", err)
	}
	return Interval{Low: exactLower(p, level), High: 1 - exactLower(Proportion{Count: p.rest(), N: p.N}, level)}, nil
}

// exactLower is the lower bound; the upper one is its mirror image with hits and misses swapped. At the rate seen the
// probability of the count or more is at least one half, so the bound lies below it.
func exactLower(p Proportion, level float64) float64 {
	if p.Count == 0 {
		return 0
	}
	tail := (1 - level) / 2
	return root(func(rate float64) float64 {
		return tail - binomial{n: p.N, p: rate, q: 1 - rate}.above(p.Count)
	}, 0, p.Rate())
}
