package quality

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// Published values of the exact interval of a Poisson count, for a rate over one unit.
func TestPoissonInterval(t *testing.T) {
	for _, c := range []struct {
		source    string
		count     int64
		low, high float64
		half      float64 // half a unit of the last printed digit
	}{
		{"epitools 0.5-10.1, help page of pois.exact: upper limit at x = 0", 0, 0, 3.689, 0.0005},
		{"calculatorhub.com, Poisson confidence interval calculator, context: k = 10", 10, 4.80, 18.39, 0.005},
	} {
		got := TrendPoint{N: 1, Count: c.count}.PerUnit()
		if math.Abs(*got.Low-c.low) > c.half || math.Abs(*got.High-c.high) > c.half {
			t.Errorf("%d: %g to %g, expected %g to %g (%s)", c.count, *got.Low, *got.High, c.low, c.high, c.source)
		}
	}
}

// At the bounds the count seen, or one further off, has a probability of 2.5 %: what makes the interval exact.
func TestPoissonIntervalLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count, n := rapid.Int64Range(0, 2000).Draw(t, "count"), rapid.Int64Range(1, 5000).Draw(t, "n")
		got := TrendPoint{N: n, Count: count}.PerUnit()
		if *got.Low > *got.Rate || *got.High < *got.Rate {
			t.Errorf("%g is outside %g to %g", *got.Rate, *got.Low, *got.High)
		}
		above := distuv.Poisson{Lambda: *got.High * float64(n)}.CDF(float64(count))
		if math.Abs(above-0.025) > 1e-6 {
			t.Errorf("%d over %d: %g or fewer at the upper bound, expected 0.025", count, n, above)
		}
		if count > 0 {
			below := 1 - distuv.Poisson{Lambda: *got.Low * float64(n)}.CDF(float64(count)-1)
			if math.Abs(below-0.025) > 1e-6 {
				t.Errorf("%d over %d: %g or more at the lower bound, expected 0.025", count, n, below)
			}
		}
	})
}

// A period without units has no rate, and a share and its complement mirror each other.
func TestShareReadings(t *testing.T) {
	for _, none := range []func(TrendPoint) (Reading, error){TrendPoint.Interval, TrendPoint.Complement} {
		if got, err := none(TrendPoint{}); err != nil || got.Rate != nil || got.Low != nil {
			t.Errorf("nothing gives %+v, %v", got, err)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(1, 1000).Draw(t, "n")
		point := TrendPoint{N: n, Count: rapid.Int64Range(0, n).Draw(t, "count")}
		share, err := point.Interval()
		if err != nil {
			t.Fatal(err)
		}
		spared, err := point.Complement()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(*share.Low+*spared.High-1) > 1e-12 || math.Abs(*share.High+*spared.Low-1) > 1e-12 {
			t.Errorf("%+v and %+v do not mirror each other", share, spared)
		}
	})
}
