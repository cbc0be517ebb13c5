package stats

import (
	"fmt"
	"math"
	"reflect"
	"testing"
)

// extremeProportions are the counts that formulas break on.
var extremeProportions = []Proportion{
	{0, 1}, {1, 1}, {0, 2}, {1, 2}, {0, 10_000_000}, {1, 10_000_000}, {9_999_999, 10_000_000}, {10_000_000, 10_000_000},
	{5_000_000, 10_000_000}, {3, 7}, {0, maxUnits / 8}, {1, maxUnits / 8}, {maxUnits / 8, maxUnits / 8},
}

// finite walks a result and complains of every number in it that is not one.
func finite(t *testing.T, what string, result any) {
	t.Helper()
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Float64:
			if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%s: %s is %v", what, path, x)
			}
		case reflect.Struct:
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(fmt.Sprintf("%s[%d]", path, i), v.Index(i))
			}
		}
	}
	walk("result", reflect.ValueOf(result))
}

func TestExtremeProportions(t *testing.T) {
	for _, p := range extremeProportions {
		for _, level := range []float64{1e-6, 0.5, 0.95, 1 - 1e-12} {
			name := fmt.Sprint(p, level)
			finite(t, name, must[Interval](t)(Wilson(p, level)))
			if p.N <= 10_000_000 {
				finite(t, name, must[Interval](t)(ClopperPearson(p, level)))
			}
		}
		if p.N <= 10_000_000 {
			for _, rate := range []float64{0, 1e-300, 1e-9, 0.5, 1 - 1e-9, 1} {
				finite(t, fmt.Sprint(p, rate), must[Funnel](t)(FunnelLimits(rate, p.N)))
			}
		}
		for _, q := range extremeProportions {
			name := fmt.Sprint(p, q)
			table := Against(p, q)
			finite(t, name, must[Estimate](t)(NewcombeDifference(p, q, Level95)))
			finite(t, name, must[Estimate](t)(KatzRatio(table, Level95)))
			finite(t, name, must[Estimate](t)(WoolfOddsRatio(table, Level95)))
			finite(t, name, must[float64](t)(FisherExact(table)))
			strata := []Table2x2{table, {1, 2, 3, 4}, table}
			finite(t, name, must[Stratified](t)(MantelHaenszel(strata, Level95)))
			tarone, plain, err := BreslowDay(strata)
			if err != nil {
				t.Fatal(err)
			}
			finite(t, name, []ChiSquared{tarone, plain})
			finite(t, name, must[BetaBinomial](t)(BetaBinomialFit([]Proportion{p, q})))
			finite(t, name, must[Detectable](t)(DetectableRates(p.Rate(), p.N, q.N, UsualComparison())))
			finite(t, name, Clusters{N: 9, Units: p.N, Hits: p.Count, UnitsSquared: 9 * p.N, HitsSquared: 9 * p.Count,
				UnitsXHits: 9 * p.Count}.DesignEffect())
			periods := []Period{{p.Count, p.N, true, true}, {}, {q.Count, q.N, true, true}, {p.Count, p.N, false, true}}
			finite(t, name, must[Chart](t)(PChart(periods)))
			finite(t, name, must[Chart](t)(UChart(periods)))
		}
	}
}

func TestPValuesFarOut(t *testing.T) {
	for _, c := range []struct {
		name string
		p    float64
	}{
		{"one-sided table", must[float64](t)(FisherExact(Table2x2{510, 0, 0, 510}))},
		{"chi-squared on 1", chiSquaredTail(1370, 1)},
		{"chi-squared on 5", chiSquaredTail(1390, 5)},
		{"many hits against few", must[Stratified](t)(MantelHaenszel([]Table2x2{{680, 10, 10, 680}}, Level95)).Test.P},
	} {
		if !(c.p > 1e-310 && c.p < 1e-250) {
			t.Errorf("%s: p is %g", c.name, c.p)
		}
	}
	// 1/C(1020, 510) is the probability of each of the two extreme tables.
	want := math.Ln2 - logChoose(1020, 510)
	if p := must[float64](t)(FisherExact(Table2x2{510, 0, 0, 510})); !tolerantlyEqual(math.Log(p), want, 1e-12) {
		t.Errorf("log p %v, want %v", math.Log(p), want)
	}
	// Below what a float64 holds a p is still above 0, and the test still calls.
	for _, p := range []float64{
		must[float64](t)(FisherExact(Table2x2{5_000_000, 0, 0, 5_000_000})), chiSquaredTail(1e6, 1), chiSquaredTail(1e6, 7),
	} {
		if p != math.SmallestNonzeroFloat64 {
			t.Errorf("p is %g", p)
		}
	}
}

func TestImpossibleInputIsRefused(t *testing.T) {
	good := Proportion{1, 2}
	for _, bad := range []Proportion{{-1, 2}, {3, 2}, {0, -1}, {0, 0}, {0, math.MaxInt64}} {
		for name, err := range map[string]error{
			"wilson": second(Wilson(bad, Level95)), "clopper-pearson": second(ClopperPearson(bad, Level95)),
			"newcombe": second(NewcombeDifference(bad, good, Level95)), "newcombe, second": second(NewcombeDifference(good, bad, Level95)),
		} {
			if err == nil {
				t.Errorf("%s takes %v", name, bad)
			}
		}
	}
	for _, level := range []float64{0, 1, -1, 95, math.NaN()} {
		for name, err := range map[string]error{
			"wilson": second(Wilson(good, level)), "katz": second(KatzRatio(Table2x2{1, 2, 3, 4}, level)),
			"woolf": second(WoolfOddsRatio(Table2x2{1, 2, 3, 4}, level)), "mantel-haenszel": second(MantelHaenszel(nil, level)),
			"kaplan-meier": second(KaplanMeier(nil, level)),
		} {
			if err == nil {
				t.Errorf("%s takes level %v", name, level)
			}
		}
	}
	for _, bad := range []Table2x2{{-1, 2, 3, 4}, {1, 2, 3, math.MaxInt64}} {
		_, _, err := BreslowDay([]Table2x2{bad})
		for name, err := range map[string]error{
			"fisher": second(FisherExact(bad)), "katz": second(KatzRatio(bad, Level95)), "woolf": second(WoolfOddsRatio(bad, Level95)),
			"mantel-haenszel": second(MantelHaenszel([]Table2x2{bad}, Level95)), "breslow-day": err,
		} {
			if err == nil {
				t.Errorf("%s takes %v", name, bad)
			}
		}
	}
	for name, table := range map[string][][]int64{"no rows": nil, "ragged": {{1, 2}, {3}}, "negative": {{1, -2}, {3, 4}}} {
		if _, _, err := PearsonChiSquared(table); err == nil {
			t.Errorf("the chi-squared test takes a table that is %s", name)
		}
	}
	for _, days := range []float64{-1, math.NaN(), math.Inf(1)} {
		if _, err := KaplanMeier([]Survival{{Days: days}}, Level95); err == nil {
			t.Errorf("kaplan-meier takes %v days", days)
		}
	}
}

// Errors name the function, the entry counted from 1, and what is wrong.
func TestErrorsSayWhichAndWhy(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{second(Wilson(Proportion{3, 2}, Level95)), "wilson interval: 3 of 2 units: a count lies between 0 and the number of units"},
		{second(Wilson(Proportion{}, Level95)), "wilson interval: 0 of 0 units: there is no rate"},
		{second(Wilson(Proportion{1, 2}, 95)), "confidence level 95: a level lies between 0 and 1, such as 0.95"},
		{second(PChart([]Period{{}, {Count: 2, N: 1}})), "p chart: period 2: 2 of 1 units: a count lies between 0 and the number of units"},
		{second(MantelHaenszel([]Table2x2{{}, {A: -1}}, Level95)), "mantel-haenszel: stratum 2: cell of -1: a cell of a table lies between 0 and 2^51"},
		{second(BenjaminiHochberg([]float64{0, 2})), "benjamini-hochberg: p-value 2 2: a probability lies between 0 and 1"},
	} {
		if c.err == nil || c.err.Error() != c.want && c.err.Error() != "wilson interval: "+c.want {
			t.Errorf("got %v, want %s", c.err, c.want)
		}
	}
}
