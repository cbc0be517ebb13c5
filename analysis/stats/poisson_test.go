package stats

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

func TestPoissonMeanPublished(t *testing.T) {
	for _, c := range []struct {
		source    string
		count     int64
		low, high float64
		half      float64 // half a unit of the last printed digit
	}{
		{"epitools 0.5-10.1, help page of pois.exact: upper limit at x = 0", 0, 0, 3.689, 0.0005},
		{"calculatorhub.com, Poisson confidence interval calculator, context: k = 10", 10, 4.80, 18.39, 0.005},
	} {
		got, err := PoissonMean(c.count, Level95)
		if err != nil || math.Abs(got.Low-c.low) > c.half || math.Abs(got.High-c.high) > c.half {
			t.Errorf("%d: %+v (%v), expected %g to %g (%s)", c.count, got, err, c.low, c.high, c.source)
		}
	}
}

// At the bounds the count seen, or one further off, has half of what the level leaves: what makes the interval exact.
func TestPoissonMeanLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count, level := rapid.Int64Range(0, 2000).Draw(t, "count"), rapid.Float64Range(0.5, 0.999).Draw(t, "level")
		got, err := PoissonMean(count, level)
		if err != nil {
			t.Fatal(err)
		}
		if !got.Holds(float64(count)) {
			t.Errorf("%d is outside %+v", count, got)
		}
		tail := (1 - level) / 2
		if above := (distuv.Poisson{Lambda: got.High}).CDF(float64(count)); math.Abs(above-tail) > 1e-6 {
			t.Errorf("%d: %g or fewer at the upper bound, expected %g", count, above, tail)
		}
		if count == 0 {
			return
		}
		if below := 1 - (distuv.Poisson{Lambda: got.Low}).CDF(float64(count)-1); math.Abs(below-tail) > 1e-6 {
			t.Errorf("%d: %g or more at the lower bound, expected %g", count, below, tail)
		}
	})
}

func TestPoissonMeanRefuses(t *testing.T) {
	for _, c := range []struct {
		count int64
		level float64
	}{{-1, 0.95}, {1, 0}, {1, 1}, {1, math.NaN()}} {
		if got, err := PoissonMean(c.count, c.level); err == nil {
			t.Errorf("%d at %g gives %+v", c.count, c.level, got)
		}
	}
}
