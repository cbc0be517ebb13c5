package stats

import (
	"fmt"
	"math"
)

// KatzRatio gives the risk ratio, group over reference, with the log interval.
//
//	ratio = (a/n1) / (c/n2)
//	se of its logarithm = sqrt(1/a - 1/n1 + 1/c - 1/n2)
//
// Source: Katz, Baptista, Azen & Pike (1978) Biometrics 34:469-474, method C.
//
// Input: counts from 0; level between 0 and 1. Not defined where either count of hits is 0, a group without units
// included. Where every unit of both groups is a hit the standard error is 0 and the interval is the point 1. A
// negative count is an error.
func KatzRatio(t Table2x2, level float64) (Estimate, error) {
	if err := checkRatioInput(t, level); err != nil {
		return Estimate{}, fmt.Errorf("katz ratio: %w", err)
	}
	if t.A == 0 || t.C == 0 {
		return Estimate{}, nil
	}
	a, c := float64(t.A), float64(t.C)
	n1, n2 := float64(t.A+t.B), float64(t.C+t.D)
	ratio := (a / n1) / (c / n2)
	// Written as (n-x)/(x n), each part is 0 or more whatever the rounding.
	se := math.Sqrt(float64(t.B)/float64(a*n1) + float64(t.D)/float64(c*n2))
	return Estimate{Value: ratio, Interval: logInterval(ratio, se, level), Defined: true}, nil
}

// checkRatioInput refuses impossible counts and what is not a level.
func checkRatioInput(t Table2x2, level float64) error {
	if err := t.check(); err != nil {
		return err
	}
	return checkLevel(level)
}
