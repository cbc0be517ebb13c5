package stats

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

func TestAdjustedPValues(t *testing.T) {
	var file struct {
		Examples []struct {
			P        []float64
			Computed struct {
				Adjusted struct{ BH []float64 }
			}
			Published struct {
				Rejected int     `json:"bh_rejected"`
				Largest  float64 `json:"bh_threshold_p"`
			}
		}
	}
	source := reference(t, "11_multiple_testing.json", &file)
	e := file.Examples[0]
	q := must[[]float64](t)(BenjaminiHochberg(e.P))
	rejected, largest := 0, 0.0
	for i := range e.P {
		source.near(fmt.Sprintf("q of %g", e.P[i]), q[i], e.Computed.Adjusted.BH[i], tenDigits)
		if q[i] <= 0.05 {
			rejected, largest = rejected+1, math.Max(largest, e.P[i])
		}
	}
	source.same("called different at 5 %", rejected, e.Published.Rejected)
	source.same("largest p called", largest, e.Published.Largest)
}

func TestBenjaminiHochbergOfAnotherSource(t *testing.T) {
	source := from(t, "scipy 1.11, stats/tests/test_morestats.py, test_against_TileStats (a published lecture)")
	p := []float64{0.005, 0.009, 0.019, 0.022, 0.051, 0.101, 0.361, 0.387}
	for i, q := range must[[]float64](t)(BenjaminiHochberg(p)) {
		source.printed("q", q, []float64{0.036, 0.036, 0.044, 0.044, 0.0816, 0.1347, 0.387, 0.387}[i], 3)
	}
}

func TestAdjustedPValuesOfUnsortedInput(t *testing.T) {
	p := []float64{0.9, 0.001, 0.5, 0.02, 0.001}
	before := slices.Clone(p)
	q := must[[]float64](t)(BenjaminiHochberg(p))
	for i, want := range []float64{0.9, 0.0025, 0.625, 0.1 / 3, 0.0025} {
		if !tolerantlyEqual(q[i], want, 1e-12) {
			t.Errorf("q of %g: got %g, want %g", p[i], q[i], want)
		}
	}
	if !slices.Equal(p, before) {
		t.Errorf("the argument was changed to %v", p)
	}
	for _, bad := range []float64{math.NaN(), -0.1, 1.1} {
		if _, err := BenjaminiHochberg([]float64{0.1, bad}); err == nil {
			t.Errorf("%g passes for a p-value", bad)
		}
	}
}
