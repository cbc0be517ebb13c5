package stats

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Limits made with R 4.2.2 from its own densities (lchoose, lbeta, pnbinom): testdata/reference/predictive-limits.
func TestPredictiveLimits(t *testing.T) {
	rows := readRows(t, "../../testdata/reference/predictive-limits/limits.csv")
	if len(rows) != 22 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, r := range rows {
		law := betaBinomialLaw
		if r["kind"] == "negative_binomial" {
			law = negativeBinomialLaw
		}
		got := law(r.count(t, "n"), Proportion{Count: r.count(t, "count"), N: r.count(t, "units")}).limits(limitTail)
		if want := (Interval{float64(r.count(t, "low")), float64(r.count(t, "high"))}); got != want {
			t.Errorf("%v: %v, want %v", r, got, want)
		}
	}
}

// The chart shows the wider of the two on each side: here the exact limit above, and none below.
func TestLimitsOfSmallCounts(t *testing.T) {
	clean := Period{N: 520, InBaseline: true, Usable: true}
	chart := must[Chart](t)(PChart([]Period{clean, {Count: 1, N: 40, Usable: true}, {Count: 3, N: 40, Usable: true}}))
	if chart.Points[1].Upper != 2.0/40 || len(chart.Points[1].Signals) != 0 || joinSignals(chart.Points[2].Signals) != "beyond_limits" {
		t.Errorf("after 520 clean units: %+v", chart.Points)
	}
}

// Past a spread of 100,000 the limits are those of the expected count; they go over into each other.
func TestWideLimitsGoOver(t *testing.T) {
	for _, law := range []countLaw{betaBinomialLaw(4_000_000, Proportion{Count: 90, N: 300}),
		negativeBinomialLaw(4_000_000, Proportion{Count: 90, N: 300})} {
		if law.spread < widest {
			t.Fatalf("spread %v", law.spread)
		}
		wide := law.limits(limitTail)
		law.spread = 0
		exact := law.limits(limitTail)
		if math.Abs(wide.Low/exact.Low-1) > 1e-4 || math.Abs(wide.High/exact.High-1) > 1e-4 {
			t.Errorf("%v, counted one by one %v", wide, exact)
		}
	}
}

// What lies beyond the limits has at most the probability allowed, and one count nearer has more.
func TestLawOfPredictiveLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, units := rapid.Int64Range(1, 400).Draw(t, "n"), rapid.Int64Range(1, 400).Draw(t, "units")
		baseline := Proportion{Count: rapid.Int64Range(0, units).Draw(t, "count"), N: units}
		for _, law := range []countLaw{betaBinomialLaw(n, baseline), negativeBinomialLaw(n, baseline)} {
			got := law.limits(limitTail)
			least, weights := law.weights()
			below, above, total := 0.0, 0.0, 0.0
			for i, weight := range weights {
				total += weight
				switch r := float64(least + int64(i)); {
				case r < got.Low:
					below += weight
				case r > got.High:
					above += weight
				}
			}
			at := func(r float64) float64 { return weights[int64(r)-least] }
			if below > limitTail*total || above > limitTail*total || below+at(got.Low) <= limitTail*total || above+at(got.High) <= limitTail*total {
				t.Fatalf("%v after %v: %v leaves %v and %v", n, baseline, got, below/total, above/total)
			}
		}
	})
}

// R 4.2.2, binom.test(0, n)$conf.int[2]; 1 - 0.025^(1/n).
func TestClopperPearsonOfNone(t *testing.T) {
	for n, want := range map[int64]float64{1: 0.975, 5: 0.5218237501, 10: 0.3084971078, 30: 0.1157033082, 100: 0.0362166926, 450: 0.0081640019} {
		got := must[Interval](t)(ClopperPearson(Proportion{N: n}, Level95))
		if got.Low != 0 || math.Abs(got.High-want) > 5e-11 || !tolerantlyEqual(got.High, 1-math.Pow(0.025, 1/float64(n)), 1e-12) {
			t.Errorf("0 of %d: %v, want %v", n, got, want)
		}
	}
}
