package stats

import (
	"fmt"
	"math"
)

// WoolfOddsRatio gives the odds ratio of a table with the logit interval.
//
//	ratio = ad / (bc)
//	se of its logarithm = sqrt(1/a + 1/b + 1/c + 1/d)
//
// Source: Woolf (1955) Ann. Hum. Genet. 19:251-253.
//
// Input: counts from 0; level between 0 and 1. Not defined where any cell is 0: nothing is added to the cells. A negative
// count is an error.
func WoolfOddsRatio(t Table2x2, level float64) (Estimate, error) {
	if err := checkRatioInput(t, level); err != nil {
		return Estimate{}, fmt.Errorf("woolf odds ratio: %w", err)
	}
	if t.A == 0 || t.B == 0 || t.C == 0 || t.D == 0 {
		return Estimate{}, nil
	}
	a, b, c, d := float64(t.A), float64(t.B), float64(t.C), float64(t.D)
	ratio := (a / b) * (d / c)
	se := math.Sqrt(1/a + 1/b + 1/c + 1/d)
	return Estimate{Value: ratio, Interval: logInterval(ratio, se, level), Defined: true}, nil
}
