package stats

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func someFollowUp() *rapid.Generator[[]Survival] {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Survival {
		// Half days, so that ties are common.
		return Survival{Days: float64(rapid.IntRange(0, 40).Draw(t, "halfDays")) / 2, Event: rapid.Bool().Draw(t, "event")}
	}), 1, 60)
}

// A survival curve never rises, stays within 0 to 1 and its interval, and does not depend on the order of units; without
// censoring it is the share of units still without the event.
func TestLawsOfKaplanMeier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := someFollowUp().Draw(t, "units")
		curve := law[Curve](t)(KaplanMeier(units, Level95))
		before := 1.0
		for _, step := range curve.Steps {
			if step.Survival > before || step.Survival < 0 {
				t.Fatalf("%v after %v", step.Survival, before)
			}
			if step.HasInterval && (!step.Interval.Holds(step.Survival) || step.Interval.Low < 0 || step.Interval.High > 1) {
				t.Fatalf("%v holds not %v", step.Interval, step.Survival)
			}
			before = step.Survival
		}
		backwards := slices.Clone(units)
		slices.Reverse(backwards)
		if again := law[Curve](t)(KaplanMeier(backwards, Level95)); !slices.Equal(again.Steps, curve.Steps) {
			t.Fatalf("%+v, in reverse %+v", curve, again)
		}
		for i := range backwards {
			backwards[i].Event = true
		}
		uncensored := law[Curve](t)(KaplanMeier(backwards, Level95))
		for day := 0.0; day <= 20; day += 0.5 {
			left := 0.0
			for _, u := range units {
				if u.Days > day {
					left++
				}
			}
			if !tolerantlyEqual(uncensored.At(day), left/float64(len(units)), 1e-12) {
				t.Fatalf("day %v: %v, want %v of %v", day, uncensored.At(day), left, len(units))
			}
		}
	})
}

// The log-rank test does not depend on which group comes first; observed and expected events add up to the same; an empty
// group and a stratum of one group change nothing; two equal strata say twice as much.
func TestLawsOfLogRank(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := someFollowUp().Draw(t, "a"), someFollowUp().Draw(t, "b"), someFollowUp().Draw(t, "c")
		three := law[LogRank](t)(LogRankTest([][][]Survival{{a, b, c}}))
		other := law[LogRank](t)(LogRankTest([][][]Survival{{c, a, b}}))
		if !closeTests(three.Test, other.Test, 1e-6) {
			t.Fatalf("%+v and %+v", three, other)
		}
		if !tolerantlyEqual(sum(three.Observed), sum(three.Expected), 1e-9) {
			t.Fatalf("observed %v, expected %v", three.Observed, three.Expected)
		}
		two := law[LogRank](t)(LogRankTest([][][]Survival{{a, b}}))
		padded := law[LogRank](t)(LogRankTest([][][]Survival{{a, b, nil}, {nil, nil, c}}))
		if !closeTests(two.Test, padded.Test, 1e-9) {
			t.Fatalf("%+v and %+v", two, padded)
		}
		twice := law[LogRank](t)(LogRankTest([][][]Survival{{a, b}, {a, b}}))
		if !tolerantlyEqual(twice.Test.Statistic, 2*two.Test.Statistic, 1e-9) {
			t.Fatalf("once %+v, twice %+v", two, twice)
		}
	})
}

func sum(values []float64) float64 {
	total := 0.0
	for _, x := range values {
		total += x
	}
	return total
}

// Limits lie around the centre and are cut at 0 and 1, sigma narrows as units grow; a chart of hits and one of misses call the
// same periods, but for the first test when limits are cut.
func TestLawsOfCharts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		periods := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Period {
			n := rapid.Int64Range(0, 300).Draw(t, "n")
			return Period{Count: rapid.Int64Range(0, n).Draw(t, "count"), N: n,
				InBaseline: rapid.Bool().Draw(t, "baseline"), Usable: rapid.Bool().Draw(t, "usable")}
		}), 1, 40).Draw(t, "periods")
		hits := law[Chart](t)(PChart(periods))
		swapped := slices.Clone(periods)
		for i, p := range periods {
			swapped[i].Count = p.N - p.Count
		}
		misses := law[Chart](t)(PChart(swapped))
		for i, point := range hits.Points {
			if !point.Defined {
				if len(point.Signals) > 0 || point.Rate != 0 {
					t.Fatalf("a period without units: %+v", point)
				}
				continue
			}
			if point.Lower < 0 || point.Upper > 1 || point.Lower > hits.Center || point.Upper < hits.Center {
				t.Fatalf("%+v around %v", point, hits.Center)
			}
			if !tolerantlyEqual(point.Lower, 1-misses.Points[i].Upper, 1e-9) {
				t.Fatalf("%+v and %+v", point, misses.Points[i])
			}
			if !periods[i].Usable && len(point.Signals) > 0 {
				t.Fatalf("an unusable period signals: %+v", point)
			}
			for j, other := range hits.Points {
				if other.Defined && periods[i].N <= periods[j].N && point.Sigma < other.Sigma-1e-12 {
					t.Fatalf("sigma %v with %d units, %v with %d", point.Sigma, periods[i].N, other.Sigma, periods[j].N)
				}
			}
		}
	})
}

// The 99.8 % funnel holds the 95 % funnel, which holds the pooled rate to within one unit; the funnel of the other result
// is its mirror image where no limit is cut.
func TestLawsOfFunnels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := rapid.Float64Range(0, 1).Draw(t, "rate")
		n := someUnits().Draw(t, "n")
		f := law[Funnel](t)(FunnelLimits(rate, n))
		if f.Limits998.Low > f.Limits95.Low+1e-12 || f.Limits998.High < f.Limits95.High-1e-12 {
			t.Fatalf("got %v", f)
		}
		one := 1 / float64(n)
		if f.Limits95.Low > rate+one || f.Limits95.High < rate-one || f.Limits95.Low < 0 || f.Limits95.High > 1 {
			t.Fatalf("%v around %v of %d", f, rate, n)
		}
	})
}

// Shrunken rates lie between the group's own rate and the mean, in any order of groups, and more units draw a group less.
func TestLawsOfShrinkage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		groups := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Proportion {
			n := rapid.Int64Range(1, 400).Draw(t, "n")
			return Proportion{Count: rapid.Int64Range(0, n).Draw(t, "count"), N: n}
		}), 1, 12).Draw(t, "groups")
		fit := law[BetaBinomial](t)(BetaBinomialFit(groups))
		if !(fit.Mean >= 0 && fit.Mean <= 1 && fit.Rho >= 0 && fit.Rho <= 1) {
			t.Fatalf("got %v", fit)
		}
		backwards := slices.Clone(groups)
		slices.Reverse(backwards)
		if again := law[BetaBinomial](t)(BetaBinomialFit(backwards)); again != fit {
			t.Fatalf("%v, in reverse %v", fit, again)
		}
		for _, g := range groups {
			low, high := math.Min(fit.Mean, g.Rate()), math.Max(fit.Mean, g.Rate())
			if got := fit.Shrink(g); got < low-1e-12 || got > high+1e-12 {
				t.Fatalf("%v of %v and %v", got, g.Rate(), fit.Mean)
			}
			larger := Proportion{Count: 10 * g.Count, N: 10 * g.N}
			if math.Abs(fit.Shrink(larger)-g.Rate()) > math.Abs(fit.Shrink(g)-g.Rate())+1e-12 {
				t.Fatalf("ten times the units of %v are drawn further", g)
			}
		}
	})
}

// The likelihood at the fit is no lower than at any other mean and scatter drawn.
func TestBetaBinomialFitIsTheTop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		groups := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Proportion {
			n := rapid.Int64Range(1, 60).Draw(t, "n")
			return Proportion{Count: rapid.Int64Range(0, n).Draw(t, "count"), N: n}
		}), 2, 8).Draw(t, "groups")
		fit := law[BetaBinomial](t)(BetaBinomialFit(groups))
		if fit.Rho == 1 || fit.Mean == 0 || fit.Mean == 1 {
			return
		}
		f := newScatterFit(groups)
		top := f.logLikelihood(fit.Mean, fit.Rho/(1-fit.Rho))
		mean := rapid.Float64Range(0.001, 0.999).Draw(t, "mean")
		theta := math.Exp(rapid.Float64Range(-12, 8).Draw(t, "logTheta"))
		if other := f.logLikelihood(mean, theta); other > top+1e-8*math.Abs(top) {
			t.Fatalf("%v at %v, %v at mean %v and theta %v", top, fit, other, mean, theta)
		}
	})
}
