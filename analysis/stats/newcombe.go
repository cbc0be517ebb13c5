package stats

import (
	"fmt"
	"math"
)

// NewcombeDifference gives the difference of two rates, first minus second, with the hybrid score interval: the Wilson
// bounds l, u of each rate are carried over to the difference d.
//
//	low  = d - sqrt((p1 - l1)² + (u2 - p2)²)
//	high = d + sqrt((u1 - p1)² + (p2 - l2)²)
//
// Source: Newcombe (1998) Stat. Med. 17:873-890, method 10.
//
// Input: two proportions with N >= 1; level between 0 and 1. The difference and its bounds lie in -1 to 1 and are always
// defined, with zero counts too. No units on a side, or a count outside 0 to N, is an error.
func NewcombeDifference(first, second Proportion, level float64) (Estimate, error) {
	for i, p := range []Proportion{first, second} {
		if err := checkRateInput(p, level); err != nil {
			return Estimate{}, fmt.Errorf("newcombe difference: group %d: %w", i+1, err)
		}
	}
	p1, p2 := first.Rate(), second.Rate()
	w1, w2 := wilson(first, level), wilson(second, level)
	difference := p1 - p2
	return Estimate{
		Value: difference,
		Interval: Interval{
			Low:  math.Max(-1, difference-math.Hypot(p1-w1.Low, w2.High-p2)),
			High: math.Min(1, difference+math.Hypot(w1.High-p1, p2-w2.Low)),
		},
		Defined: true,
	}, nil
}
