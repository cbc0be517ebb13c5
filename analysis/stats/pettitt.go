package stats

import (
	"fmt"
	"math"
	"sort"
)

// Shift is the most likely point at which the level of measured values changed.
type Shift struct {
	// At is the number of values before the change.
	At int
	// Statistic is Pettitt's K, 0 or more.
	Statistic float64
	// Falls tells that values were higher before.
	Falls bool
	P     float64
	// Defined is false with fewer than two values.
	Defined bool
}

// Pettitt looks for a change of level without assuming a distribution.
//
//	U_t = 2 (R_1 + … + R_t) - t (n+1),  R the ranks, ties sharing their mean,  K = max |U_t|
//	p = 2 exp(-6 K² / (n³ + n²)), at most 1
//
// Source: Pettitt (1979) Appl. Stat. 28:126-135. The p is approximate, and good below 0.5.
//
// Input: finite values in order of time, in any unit. Of equal maxima the first is taken. A value that is not finite is an
// error.
func Pettitt(values []float64) (Shift, error) {
	if err := checkValues(values); err != nil {
		return Shift{}, fmt.Errorf("pettitt: %w", err)
	}
	if len(values) < 2 {
		return Shift{}, nil
	}
	n := float64(len(values))
	shift, sum := Shift{At: 1, Defined: true}, 0.0
	for i, rank := range midranks(values)[:len(values)-1] {
		sum += 2 * rank
		u := sum - float64(float64(i+1)*(n+1))
		if math.Abs(u) > shift.Statistic {
			shift.At, shift.Statistic, shift.Falls = i+1, math.Abs(u), u > 0
		}
	}
	shift.P = asProbability(2 * math.Exp(-6*float64(shift.Statistic*shift.Statistic)/float64(n*n*(n+1))))
	return shift, nil
}

// midranks gives each value its place from 1 in ascending order; equal values share the mean of their places.
func midranks(values []float64) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return values[order[a]] < values[order[b]] })
	ranks := make([]float64, len(values))
	for first := 0; first < len(order); {
		next := first
		for next < len(order) && values[order[next]] == values[order[first]] {
			next++
		}
		for _, at := range order[first:next] {
			ranks[at] = float64(first+next+1) / 2
		}
		first = next
	}
	return ranks
}
