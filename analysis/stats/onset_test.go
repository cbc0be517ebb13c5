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
		change := must[Change](t)(ChangePoint(anywhere(sequence), DefaultDraws, 20260101))
		source.same(c.Name, change.At, c.Computed.T)
		source.near(c.Name+" before", change.Before.Rate(), c.Computed.PBefore, tenDigits)
		source.near(c.Name+" after", change.After.Rate(), c.Computed.PAfter, tenDigits)
		source.near(c.Name+" statistic", change.Statistic, c.Computed.TwoLogLR, tenDigits)
		if again := must[Change](t)(ChangePoint(anywhere(sequence), DefaultDraws, 20260101)); again != change {
			t.Errorf("%s: the same seed gave %+v and %+v", c.Name, change, again)
		}
	}
}

// anywhere is a sequence that may be cut between any two of its clusters.
func anywhere(clusters []Proportion) Sequence {
	s := Sequence{Clusters: clusters, Least: 1}
	for cut := 1; cut < len(clusters); cut++ {
		s.Cuts = append(s.Cuts, cut)
	}
	return s
}

func TestChangePointDrawsOrders(t *testing.T) {
	// Three misses, then three hits: of the 20 orders this one and its mirror image split perfectly, p 0.1. Drawing ends at
	// 50 of these, a relative error of 14 %.
	clusters := []Proportion{{0, 1}, {0, 1}, {0, 1}, {1, 1}, {1, 1}, {1, 1}}
	change := must[Change](t)(ChangePoint(anywhere(clusters), DefaultDraws, 1))
	if change.P < 0.06 || change.P > 0.16 || change.At != 3 || change.Draws != int(math.Round(50/change.P)) {
		t.Errorf("got %+v", change)
	}
	// Two jobs that share one fate, three tasks each: one of two orders, or its mirror image. That is no evidence at all.
	alike := must[Change](t)(ChangePoint(anywhere([]Proportion{{0, 3}, {3, 3}}), 99, 1))
	if alike.P != 1 || alike.Draws != 50 {
		t.Errorf("got %+v", alike)
	}
	// The same rate, and cuts allowed only where the first rises are over: the earlier of two equal cuts is taken.
	even := must[Change](t)(ChangePoint(Sequence{Clusters: []Proportion{{0, 1}, {1, 1}, {1, 1}, {0, 1}}, Cuts: []int{1, 3}, Least: 1}, 9, 1))
	if even.At != 1 {
		t.Errorf("got %+v", even)
	}
}

// Both parts have the least number of units, in the order seen and in every order drawn.
func TestChangePointLeavesParts(t *testing.T) {
	clusters := make([]Proportion, 24)
	for i := range clusters {
		clusters[i] = Proportion{N: 1, Count: int64(i / 22)}
	}
	free := must[Change](t)(ChangePoint(anywhere(clusters), 99, 1))
	bound := anywhere(clusters)
	bound.Least = 10
	held := must[Change](t)(ChangePoint(bound, 99, 1))
	if free.At != 22 || held.At != 14 || held.After.N != 10 {
		t.Errorf("free %+v, held %+v", free, held)
	}
	bound.Least = 13
	if none := must[Change](t)(ChangePoint(bound, 99, 1)); none.Defined {
		t.Errorf("two parts of 13 of 24: %+v", none)
	}
}

func TestChangePointDrawsNoMoreThanItNeeds(t *testing.T) {
	// One rate throughout: fifty better orders come soon. A clear change: all orders are drawn, and none is better.
	var even, changed []Proportion
	for i := range 40 {
		even = append(even, Proportion{Count: int64(10 + i%2), N: 100})
		changed = append(changed, Proportion{Count: int64(10 + i/20*30), N: 100})
	}
	if change := must[Change](t)(ChangePoint(anywhere(even), DefaultDraws, 3)); change.Draws >= 1000 || change.P < 0.05 {
		t.Errorf("no change: %+v", change)
	}
	change := must[Change](t)(ChangePoint(anywhere(changed), 999, 3))
	if change.Draws != 999 || change.P != 0.001 || change.At != 20 || change.Seed != 3 {
		t.Errorf("a change: %+v", change)
	}
}

func TestChangePointWithNothingToSplit(t *testing.T) {
	for name, clusters := range map[string][]Proportion{
		"nothing": nil, "one cluster": {{3, 10}}, "no hits": {{0, 3}, {0, 4}}, "only hits": {{3, 3}, {4, 4}},
		"one cluster with units": {{0, 0}, {3, 10}, {0, 0}},
	} {
		if change := must[Change](t)(ChangePoint(anywhere(clusters), 9, 1)); change.Defined {
			t.Errorf("%s: %+v", name, change)
		}
	}
	two := []Proportion{{1, 2}, {0, 1}}
	for name, sequence := range map[string]Sequence{
		"no least": {Clusters: two, Cuts: []int{1}}, "a cut at the end": {Clusters: two, Cuts: []int{2}, Least: 1},
		"a cut twice": {Clusters: append(two, two...), Cuts: []int{1, 1}, Least: 1},
	} {
		if _, err := ChangePoint(sequence, 9, 1); err == nil {
			t.Errorf("%s passes", name)
		}
	}
	if _, err := ChangePoint(anywhere(two), 0, 1); err == nil {
		t.Error("no draws pass")
	}
}

// Disasters in British coal mines, 1851 to 1961, by year: Jarrett (1979) Biometrika 66:191-193, as printed by Carlin,
// Gelfand & Smith (1992) Appl. Stat. 41:389-405, counts from memory. They find the change after year 41 (1891) most
// likely. No year has more than six, so a year stands for six units.
func TestChangePointInCoalMining(t *testing.T) {
	disasters := []int64{4, 5, 4, 0, 1, 4, 3, 4, 0, 6, 3, 3, 4, 0, 2, 6, 3, 3, 5, 4, 5, 3, 1, 4, 4, 1, 5, 5, 3, 4, 2, 5, 2, 2, 3,
		4, 2, 1, 3, 2, 2, 1, 1, 1, 1, 3, 0, 0, 1, 0, 1, 1, 0, 0, 3, 1, 0, 3, 2, 2, 0, 1, 1, 1, 0, 1, 0, 1, 0, 0, 0, 2, 1, 0, 0, 0, 1, 1,
		0, 2, 3, 3, 1, 1, 2, 1, 1, 1, 1, 2, 4, 2, 0, 0, 1, 4, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 1}
	var years []Proportion
	for _, count := range disasters {
		years = append(years, Proportion{Count: count, N: 6})
	}
	change := must[Change](t)(ChangePoint(anywhere(years), 1999, 1))
	if change.At != 41 || change.P != 1.0/2000 || change.Before.Count+change.After.Count != 191 {
		t.Errorf("got %+v", change)
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

// Of equal maxima Pettitt's point is the first: the ranks 1.5, 3, 1.5 give U = -1 and then 1, by hand.
func TestPettittOfEqualMaxima(t *testing.T) {
	shift := must[Shift](t)(Pettitt([]float64{1, 2, 1}))
	if shift.At != 1 || shift.Statistic != 1 || shift.Falls {
		t.Errorf("%+v", shift)
	}
}

// Past the table of x log x it is computed.
func TestFitsBeyondTheTable(t *testing.T) {
	short, long := splitter{}, newSplitter(anywhere([]Proportion{{3, 9}, {2, 9}}))
	if got, want := short.fit(3, 9), long.fit(3, 9); !tolerantlyEqual(got, want, 1e-12) {
		t.Errorf("%v, by the table %v", got, want)
	}
}
