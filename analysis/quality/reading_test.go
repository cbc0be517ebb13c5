package quality

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Occurrences a unit are the mean of the count and its interval over the units.
func TestPerUnitReading(t *testing.T) {
	if got, err := (TrendPoint{}).PerUnit(); err != nil || got.Rate != nil || got.High != nil {
		t.Errorf("nothing gives %+v, %v", got, err)
	}
	got, err := TrendPoint{N: 4, Count: 10}.PerUnit()
	if err != nil {
		t.Fatal(err)
	}
	// The interval of a count of 10 is 4.80 to 18.39 (see the test of stats.PoissonMean).
	if *got.Rate != 2.5 || math.Abs(*got.Low*4-4.80) > 0.005 || math.Abs(*got.High*4-18.39) > 0.005 {
		t.Errorf("10 over 4 units: %g (%g to %g)", *got.Rate, *got.Low, *got.High)
	}
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
