package stats

import (
	"fmt"
	"math"
	"testing"
)

type onsets struct {
	Digits []struct {
		Name     string
		Computed struct {
			Observed [10]int64
			X2, P    float64
			Share    float64 `json:"share_0_or_5"`
		}
		Published struct{ X2 float64 }
	} `json:"terminal_digit"`
	Changes []struct {
		Name      string
		X         []float64
		N         []int64
		Published struct{ P float64 }
		Computed  struct {
			K, P          float64
			T             int
			U             float64 `json:"U_at_t"`
			PBefore       float64 `json:"p_before"`
			PAfter        float64 `json:"p_after"`
			TwoLogLR      float64 `json:"two_log_lr"`
			PettittValues struct {
				K, P float64
				T    int
			} `json:"pettitt"`
		}
	} `json:"changepoint"`
	Trends []struct {
		X []float64
	} `json:"mann_kendall"`
}

func TestTerminalDigits(t *testing.T) {
	var file onsets
	source := reference(t, "16_digits_runs_trend_changepoint.json", &file)
	for _, d := range file.Digits {
		test := must[DigitTest](t)(TerminalDigits(d.Computed.Observed))
		source.near(d.Name, test.Test.Statistic, d.Computed.X2, tenDigits)
		source.near(d.Name+" p", test.Test.P, d.Computed.P, tenDigits)
		source.same(d.Name+" degrees of freedom", test.Test.DF, 9)
		if d.Computed.Share > 0 {
			source.near(d.Name+" share", test.FiveShare, d.Computed.Share, tenDigits)
		}
	}
	if none := must[DigitTest](t)(TerminalDigits([10]int64{})); none.Test.Defined {
		t.Errorf("no values: %+v", none)
	}
	if _, err := TerminalDigits([10]int64{-1}); err == nil {
		t.Error("a negative count passes")
	}
}

func TestChangePoint(t *testing.T) {
	var file onsets
	source := reference(t, "16_digits_runs_trend_changepoint.json", &file)
	for _, c := range file.Changes[2:] {
		var sequence []Proportion
		for i, x := range c.X {
			p := Proportion{Count: int64(x), N: 1}
			if c.N != nil {
				p.N = c.N[i]
			}
			sequence = append(sequence, p)
		}
		change := must[Change](t)(ChangePoint(sequence, DefaultDraws, 20260101))
		source.same(c.Name, change.At, c.Computed.T)
		source.near(c.Name+" before", change.Before.Rate(), c.Computed.PBefore, tenDigits)
		source.near(c.Name+" after", change.After.Rate(), c.Computed.PAfter, tenDigits)
		source.near(c.Name+" statistic", change.Statistic, c.Computed.TwoLogLR, tenDigits)
		if again := must[Change](t)(ChangePoint(sequence, DefaultDraws, 20260101)); again != change {
			t.Errorf("%s: the same seed gave %+v and %+v", c.Name, change, again)
		}
	}
}

func TestChangePointExactly(t *testing.T) {
	// Three misses, then three hits: of the 20 orders only this one and its mirror image split perfectly.
	var sequence []Proportion
	for i := range 6 {
		sequence = append(sequence, Proportion{Count: int64(i / 3), N: 1})
	}
	change := must[Change](t)(ChangePoint(sequence, 1, 1))
	if !tolerantlyEqual(change.P, 0.1, 1e-12) || change.Draws != 0 || change.At != 3 {
		t.Errorf("got %+v", change)
	}
	// The same units in three groups; a group without units changes nothing but the place.
	grouped := must[Change](t)(ChangePoint([]Proportion{{0, 2}, {0, 0}, {1, 2}, {2, 2}}, 1, 1))
	if grouped.Draws != 0 || grouped.At != 1 {
		t.Errorf("got %+v", grouped)
	}
	// Drawn and exact p agree: 24 units with 4 hits have 10,626 orders.
	longer := []Proportion{{0, 8}, {0, 4}, {1, 4}, {1, 4}, {2, 4}}
	s := newSplitter(longer)
	_, statistic := s.best([]int64{0, 0, 1, 1, 2})
	exact := must[Change](t)(ChangePoint(longer, 1, 1))
	drawn, draws := s.drawnP(statistic*(1-sameStatistic), 20000, newRandom(7))
	if exact.Draws != 0 || draws == 0 {
		t.Fatalf("exact %+v, drawn %v", exact, draws)
	}
	// Drawing ends at 50 exceeding orders, a relative error of 14 %; four times that is far.
	if drawn < exact.P/1.6 || drawn > exact.P*1.6 {
		t.Errorf("drawn %v, exact %v", drawn, exact.P)
	}
}

func TestChangePointDrawsNoMoreThanItNeeds(t *testing.T) {
	// One rate throughout: fifty better orders come soon. A clear change: all orders are drawn, and none is better.
	var even, changed []Proportion
	for i := range 40 {
		even = append(even, Proportion{Count: int64(10 + i%2), N: 100})
		changed = append(changed, Proportion{Count: int64(10 + i/20*30), N: 100})
	}
	if change := must[Change](t)(ChangePoint(even, DefaultDraws, 3)); change.Draws >= 1000 || change.P < 0.05 {
		t.Errorf("no change: %+v", change)
	}
	change := must[Change](t)(ChangePoint(changed, 999, 3))
	if change.Draws != 999 || change.P != 0.001 || change.At != 20 || change.Seed != 3 {
		t.Errorf("a change: %+v", change)
	}
}

func TestChangePointWithNothingToSplit(t *testing.T) {
	for name, sequence := range map[string][]Proportion{
		"nothing": nil, "one group": {{3, 10}}, "no hits": {{0, 3}, {0, 4}}, "only hits": {{3, 3}, {4, 4}},
		"one group with units": {{0, 0}, {3, 10}, {0, 0}},
	} {
		if change := must[Change](t)(ChangePoint(sequence, 9, 1)); change.Defined {
			t.Errorf("%s: %+v", name, change)
		}
	}
	if _, err := ChangePoint([]Proportion{{1, 2}, {0, 1}}, 0, 1); err == nil {
		t.Error("no draws pass")
	}
}

func TestPettitt(t *testing.T) {
	var file onsets
	source := reference(t, "16_digits_runs_trend_changepoint.json", &file)
	nile := file.Trends[2].X
	series := map[string][]float64{file.Changes[0].Name: file.Changes[0].X, file.Changes[1].Name: nile}
	for _, c := range file.Changes[:2] {
		shift := must[Shift](t)(Pettitt(series[c.Name]))
		source.same(c.Name, []any{shift.At, shift.Statistic, shift.Falls}, []any{c.Computed.T, c.Computed.K, c.Computed.U > 0})
		source.near(c.Name+" p", shift.P, c.Computed.P, tenDigits)
	}
	// Printed as .014, which is 0.01456 cut off rather than rounded.
	page := must[Shift](t)(Pettitt(file.Changes[0].X))
	source.printed("Page's values as printed", math.Floor(page.P*1000)/1000, file.Changes[0].Published.P, 3)
	// Ties share ranks.
	bernoulli := file.Changes[2]
	shift := must[Shift](t)(Pettitt(bernoulli.X))
	source.same(bernoulli.Name, []any{shift.At, shift.Statistic}, []any{bernoulli.Computed.PettittValues.T, bernoulli.Computed.PettittValues.K})
	source.near(bernoulli.Name+" p", shift.P, bernoulli.Computed.PettittValues.P, tenDigits)
	if flat := must[Shift](t)(Pettitt([]float64{2, 2, 2})); flat.P != 1 || flat.Statistic != 0 {
		t.Errorf("equal values: %+v", flat)
	}
	if fmt.Sprint(must[Shift](t)(Pettitt([]float64{2}))) != fmt.Sprint(Shift{}) {
		t.Error("one value shifts")
	}
}
