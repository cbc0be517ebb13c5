package stats_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"plumbline/analysis/stats"
)

// Ten distances worked by hand after Spiegelhalter (2005), section 4.2: 10 % at each end is one of ten, so 9 becomes 3
// and -4 becomes -2; the squares then add up to 4+4+1+0.25+0+0.25+1+4+9+9 = 32.5.
func TestOverdispersionWinsorises(t *testing.T) {
	got, err := stats.Overdispersion([]float64{9, -4, -2, -1, -0.5, 0, 0.5, 1, 2, 3}, 0.1)
	if err != nil || math.Abs(got-3.25) > 1e-12 {
		t.Errorf("got %v, %v; want 3.25", got, err)
	}
	plain, err := stats.Overdispersion([]float64{9, -4, -2, -1, -0.5, 0, 0.5, 1, 2, 3}, 0)
	if err != nil || math.Abs(plain-11.65) > 1e-12 {
		t.Errorf("untrimmed: got %v, %v; want 11.65", plain, err)
	}
}

func TestOverdispersionLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := rapid.SliceOfN(rapid.Float64Range(-20, 20), 1, 60).Draw(t, "z")
		trim := rapid.Float64Range(0, 0.49).Draw(t, "trim")
		got, err := stats.Overdispersion(z, trim)
		if err != nil || got < 1 || got > 400 {
			t.Fatalf("%v of %v: %v, %v", trim, z, got, err)
		}
		mirrored := make([]float64, len(z))
		for i := range z {
			mirrored[len(z)-1-i] = -z[i]
		}
		if other, _ := stats.Overdispersion(mirrored, trim); math.Abs(other-got) > 1e-9 {
			t.Fatalf("mirrored %v, want %v", other, got)
		}
	})
	for _, wrong := range [][]float64{nil, {math.NaN()}, {1, math.Inf(1)}} {
		if _, err := stats.Overdispersion(wrong, 0.1); err == nil {
			t.Errorf("%v was taken", wrong)
		}
	}
}
