package stats

import (
	"fmt"
	"math"
	"slices"
)

// Overdispersion is how much wider than by chance alone groups lie around what is expected of them: the mean square of
// their standardised distances, the share trim of the farthest at each end drawn in to the next one first, so that the
// outliers that are looked for do not hide themselves; at least 1.
//
//	phi = max(1, mean of w(z)^2)
//
// Source: Spiegelhalter (2005) Statistics in Medicine 24:1185-1202, sections 4.1 and 4.2 (multiplicative model,
// winsorised z-scores). z are any finite numbers, at least one; trim is from 0 up to below 0.5.
func Overdispersion(z []float64, trim float64) (float64, error) {
	if len(z) == 0 || trim < 0 || trim >= 0.5 {
		return 0, fmt.Errorf("overdispersion: %d distances, trimmed %g: it takes one at least, and a share below a half", len(z), trim)
	}
	sorted := slices.Sorted(slices.Values(z))
	if math.IsNaN(sorted[0]) || math.IsInf(sorted[0], 0) || math.IsInf(sorted[len(sorted)-1], 0) {
		return 0, fmt.Errorf("overdispersion: a distance is not finite")
	}
	cut := int(trim * float64(len(sorted)))
	low, high := sorted[cut], sorted[len(sorted)-1-cut]
	sum := 0.0
	for _, distance := range sorted {
		inside := min(max(distance, low), high)
		sum += float64(inside * inside)
	}
	return max(1, sum/float64(len(sorted))), nil
}
