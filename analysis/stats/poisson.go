package stats

import (
	"fmt"

	"gonum.org/v1/gonum/mathext"
)

// PoissonMean gives the exact interval of the mean of a Poisson distribution of which one count was seen.
//
//	low, high = G(x, (1-level)/2), G(x+1, (1+level)/2),  G(a, p) the p quantile of the gamma distribution with shape a
//
// Source: Garwood (1936) Biometrika 28:437-442.
//
// Input: count >= 0; level is the confidence, between 0 and 1. Bounds are counts; that of a count of 0 begins at 0.
// A negative count, or what is not a level, is an error.
func PoissonMean(count int64, level float64) (Interval, error) {
	if count < 0 {
		return Interval{}, fmt.Errorf("poisson interval: count %d: must not be negative", count)
	}
	if err := checkLevel(level); err != nil {
		return Interval{}, fmt.Errorf("poisson interval: %w", err)
	}
	x := float64(count)
	bounds := Interval{High: mathext.GammaIncRegInv(x+1, (1+level)/2)}
	if count > 0 {
		bounds.Low = mathext.GammaIncRegInv(x, (1-level)/2)
	}
	return bounds, nil
}
