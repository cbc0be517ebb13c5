package stats

import (
	"fmt"
	"slices"
	"testing"
)

type freireich struct {
	Examples []struct {
		Time     []float64
		Status   []int
		Group    []string
		Computed struct {
			KM map[string]struct {
				Time     []float64
				AtRisk   []int64 `json:"n_risk"`
				Events   []int64 `json:"n_event"`
				Survival []float64
				Surv     []float64
				StdErr   []*float64 `json:"se_greenwood"`
				Low      []*float64 `json:"loglog_lo"`
				High     []*float64 `json:"loglog_hi"`
				Median   float64
			}
			LogRank logRankValues
			At10    map[string]float64 `json:"surv_at_10"`
		}
		Published struct {
			Survival []float64 `json:"km_6mp_4dp"`
			StdErr   []float64 `json:"se_6mp_3dp"`
		}
	}
}

type logRankValues struct {
	Obs, Exp   []float64
	ChiSq, P   float64
	GroupNames []string `json:"groups"`
}

func (f freireich) groups() map[string][]Survival {
	groups := map[string][]Survival{}
	for i, name := range f.Examples[0].Group {
		groups[name] = append(groups[name], Survival{Days: f.Examples[0].Time[i], Event: f.Examples[0].Status[i] == 1})
	}
	return groups
}

func TestKaplanMeier(t *testing.T) {
	var file freireich
	source := reference(t, "10_kaplan_meier_logrank.json", &file)
	for name, units := range file.groups() {
		want := file.Examples[0].Computed.KM[name]
		curve := must[Curve](t)(KaplanMeier(units, Level95))
		if len(curve.Steps) != len(want.Time) {
			t.Fatalf("%s: %d steps, want %d", name, len(curve.Steps), len(want.Time))
		}
		for i, step := range curve.Steps {
			at := fmt.Sprintf("%s at %g", name, step.Day)
			source.same(at, []any{step.Day, step.AtRisk, step.Events}, []any{want.Time[i], want.AtRisk[i], want.Events[i]})
			source.near(at, step.Survival, want.Surv[i], tenDigits)
			source.same(at+" has an interval", step.HasInterval, want.StdErr[i] != nil)
			if step.HasInterval {
				source.near(at+" standard error", step.StdErr, *want.StdErr[i], tenDigits)
				source.nearInterval(at, step.Interval, [2]float64{*want.Low[i], *want.High[i]})
			}
		}
	}
	treated := must[Curve](t)(KaplanMeier(file.groups()["6-MP"], Level95))
	for i, step := range treated.Steps {
		source.printed("as printed", step.Survival, file.Examples[0].Published.Survival[i], 4)
		source.printed("standard error as printed", step.StdErr, file.Examples[0].Published.StdErr[i], 3)
	}
	for name, want := range file.Examples[1].Computed.At10 {
		curve := must[Curve](t)(KaplanMeier(file.groups()[name], Level95))
		source.near(name+" at 10", curve.At(10), want, tenDigits)
		if curve.At(0) != 1 || curve.At(1e6) != curve.Steps[len(curve.Steps)-1].Survival {
			t.Errorf("%s: %v before, %v after the steps", name, curve.At(0), curve.At(1e6))
		}
	}
}

func TestLogRank(t *testing.T) {
	var file freireich
	source := reference(t, "10_kaplan_meier_logrank.json", &file)
	groups := file.groups()
	treated, placebo := groups["6-MP"], groups["placebo"]
	check := func(what string, strata [][][]Survival, want logRankValues) {
		got := must[LogRank](t)(LogRankTest(strata))
		for g := range want.Obs {
			source.near(what+": observed", got.Observed[g], want.Obs[g], tenDigits)
			source.near(what+": expected", got.Expected[g], want.Exp[g], tenDigits)
		}
		source.near(what, got.Test.Statistic, want.ChiSq, tenDigits)
		source.near(what+": p", got.Test.P, want.P, 1e-8)
	}
	check("whole", [][][]Survival{{treated, placebo}}, file.Examples[0].Computed.LogRank)
	check("ten weeks", [][][]Survival{{cutAt(treated, 10), cutAt(placebo, 10)}}, file.Examples[1].Computed.LogRank)
}

// cutAt ends every follow-up after some days: what happened later has not happened yet.
func cutAt(units []Survival, days float64) []Survival {
	cut := slices.Clone(units)
	for i, u := range cut {
		if u.Days > days {
			cut[i] = Survival{Days: days}
		}
	}
	return cut
}

func TestSurvivalOfOtherSources(t *testing.T) {
	source := from(t, "R survival, survdiff and survfit, as quoted by statsmodels, duration/tests/test_survfunc.py, commit 03ec561")
	first := unitsOf([]float64{3, 1, 2, 3, 2, 1, 5, 3}, []int{0, 1, 1, 1, 0, 0, 1, 0})
	second := unitsOf([]float64{1, 1, 2, 3, 7, 1, 5, 3, 9}, []int{0, 1, 0, 0, 1, 0, 1, 0, 1})
	curve := must[Curve](t)(KaplanMeier(second, Level95))
	for i, want := range []float64{0.8888889, 0.5925926, 0.2962963, 0} {
		source.printed("survival", curve.Steps[i].Survival, want, 7)
		source.printed("standard error", curve.Steps[i].StdErr, []float64{0.1047566, 0.2518034, 0.2444320, 0}[i], 7)
	}
	test := must[LogRank](t)(LogRankTest([][][]Survival{{first, second}}))
	source.printed("log-rank", test.Test.Statistic, 2.14673, 5)
	source.printed("p", test.Test.P, 0.14287, 5)
}

func TestStratifiedLogRank(t *testing.T) {
	source := from(t, "R survival, survdiff on ovarian (Edmonson et al. 1979), as printed by the manual of an R package, document 56677270486")
	strata := [][][]Survival{{nil, nil}, {nil, nil}}
	for _, r := range numbers(t, "edmonson-1979/ovarian.csv") {
		s, g := int(r["residual_disease"])-1, int(r["treatment"])-1
		strata[s][g] = append(strata[s][g], Survival{Days: r["days"], Event: r["died"] == 1})
	}
	whole := [][]Survival{slices.Concat(strata[0][0], strata[1][0]), slices.Concat(strata[0][1], strata[1][1])}
	plain := must[LogRank](t)(LogRankTest([][][]Survival{whole}))
	source.printed("log-rank", plain.Test.Statistic, 1.0627, 4)
	source.printed("p", plain.Test.P, 0.3026, 4)
	source.printed("expected under treatment 1", plain.Expected[0], 5.2335, 4)
	source.printed("expected under treatment 2, their control", plain.Expected[1], 6.7665, 4)
	stratified := must[LogRank](t)(LogRankTest(strata))
	source.printed("stratified by residual disease", stratified.Test.Statistic, 1.279643, 6)
}

func unitsOf(days []float64, events []int) []Survival {
	var units []Survival
	for i, d := range days {
		units = append(units, Survival{Days: d, Event: events[i] == 1})
	}
	return units
}

func TestSurvivalAtItsBounds(t *testing.T) {
	none := must[Curve](t)(KaplanMeier(nil, Level95))
	if none.N != 0 || len(none.Steps) != 0 || none.At(5) != 1 {
		t.Errorf("no units: %+v", none)
	}
	one := must[Curve](t)(KaplanMeier([]Survival{{Days: 0, Event: true}}, Level95))
	if len(one.Steps) != 1 || one.Steps[0].Survival != 0 || one.Steps[0].HasInterval {
		t.Errorf("one unit: %+v", one)
	}
	// An event and a censored unit on one day: the censored one is still at risk.
	tied := must[Curve](t)(KaplanMeier([]Survival{{Days: 90, Event: true}, {Days: 90}}, Level95))
	if tied.Steps[0].AtRisk != 2 || tied.Steps[0].Survival != 0.5 {
		t.Errorf("tie: %+v", tied)
	}
	for name, strata := range map[string][][][]Survival{
		"an empty group":    {{{{5, true}, {7, false}}, nil}},
		"no events":         {{{{5, false}}, {{7, false}}}},
		"never at risk":     {{{{1, false}}, {{5, true}, {6, true}}}},
		"one unit in each":  {{{{1, true}}, nil}, {nil, {{2, true}}}},
		"nobody in a group": {{nil, nil}},
	} {
		if test := must[LogRank](t)(LogRankTest(strata)); test.Test.Defined {
			t.Errorf("%s: %+v", name, test)
		}
	}
	for name, strata := range map[string][][][]Survival{
		"one group": {{{{5, true}}}}, "no strata": nil, "unequal strata": {{nil, nil}, {nil}}, "before the start": {{{{-1, true}}, nil}},
	} {
		if _, err := LogRankTest(strata); err == nil {
			t.Errorf("%s passes", name)
		}
	}
}
