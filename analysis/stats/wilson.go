package stats

import (
	"fmt"
	"math"
)

// Wilson gives the score interval of a proportion.
//
//	(x + z²/2 -+ z sqrt(x (n-x)/n + z²/4)) / (n + z²)
//
// Source: Wilson (1927) J. Am. Stat. Assoc. 22:209-212; Newcombe (1998) Stat. Med. 17:857-872, method 3, without
// continuity correction.
//
// Input: p with N >= 1; level is the confidence, between 0 and 1. Bounds are rates from 0 to 1. With no hits the lower
// bound is exactly 0, with nothing but hits the upper bound is exactly 1. No units, or a count outside 0 to N, is an
// error.
func Wilson(p Proportion, level float64) (Interval, error) {
	if err := checkRateInput(p, level); err != nil {
		return Interval{}, fmt.Errorf("wilson interval: %w", err)
	}
	return wilson(p, level), nil
}

// wilson is Wilson for input already checked.
func wilson(p Proportion, level float64) Interval {
	z := twoSidedDeviate(level)
	x, n := float64(p.Count), float64(p.N)
	square := float64(z * z)
	middle := x + square/2
	half := float64(z * math.Sqrt(float64(x*(n-x))/n+square/4))
	bounds := Interval{
		Low:  math.Max(0, (middle-half)/(n+square)),
		High: math.Min(1, (middle+half)/(n+square)),
	}
	// At the ends middle and half are equal but for rounding.
	if p.Count == 0 {
		bounds.Low = 0
	}
	if p.Count == p.N {
		bounds.High = 1
	}
	return bounds
}

// checkRateInput refuses a proportion without units or with impossible counts, and what is not a level.
func checkRateInput(p Proportion, level float64) error {
	if err := p.checkSeen(); err != nil {
		return err
	}
	return checkLevel(level)
}
