package stats

import (
	"math"
	"testing"
)

func TestNormalDeviate(t *testing.T) {
	// qnorm(0.975), R 4.2.2, to 15 digits; Newcombe (1998) prints 1.959964.
	from(t, "R 4.2.2, qnorm(0.975)").near("z of 95 %", twoSidedDeviate(Level95), 1.95996398454005, 1e-14)
}

func TestWilsonAndClopperPearson(t *testing.T) {
	type bounds struct {
		Wilson         [2]float64 `json:"wilson"`
		ClopperPearson [2]float64 `json:"clopper_pearson"`
	}
	var file struct {
		Single []struct {
			X, N                int64
			Published, Computed bounds
		}
		Extra []struct {
			X, N int64
			bounds
		} `json:"extra_computed"`
	}
	source := reference(t, "06_proportion_intervals.json", &file)
	check := func(x, n int64, want bounds) (Interval, Interval) {
		w := must[Interval](t)(Wilson(Proportion{Count: x, N: n}, Level95))
		cp := must[Interval](t)(ClopperPearson(Proportion{Count: x, N: n}, Level95))
		source.nearInterval("wilson", w, want.Wilson)
		source.nearInterval("clopper-pearson", cp, want.ClopperPearson)
		return w, cp
	}
	for _, c := range file.Single {
		w, cp := check(c.X, c.N, c.Computed)
		for i := range 2 {
			source.printed("wilson", []float64{w.Low, w.High}[i], c.Published.Wilson[i], 4)
			source.printed("clopper-pearson", []float64{cp.Low, cp.High}[i], c.Published.ClopperPearson[i], 4)
		}
	}
	for _, c := range file.Extra {
		check(c.X, c.N, c.bounds)
	}
}

func TestIntervalsOfATextbook(t *testing.T) {
	source := from(t, "Fagerland, Lydersen & Laake (2017) Statistical Analysis of Contingency Tables, ch. 2 and 4 (13 of 16; "+
		"Perondi et al. 2004), as printed by the test files of the R package contingencytables, commit 0b16d6d")
	p := Proportion{Count: 13, N: 16}
	w := must[Interval](t)(Wilson(p, Level95))
	source.printed("wilson low", w.Low, 0.5699, 4)
	source.printed("wilson high", w.High, 0.9341, 4)
	cp := must[Interval](t)(ClopperPearson(p, Level95))
	source.printed("clopper-pearson low", cp.Low, 0.5435, 4)
	source.printed("clopper-pearson high", cp.High, 0.9595, 4)

	high, standard := Proportion{Count: 7, N: 34}, Proportion{Count: 1, N: 34}
	d := must[Estimate](t)(NewcombeDifference(high, standard, Level95))
	source.printed("difference", d.Value, 0.1765, 4)
	source.printed("newcombe low", d.Interval.Low, 0.0189, 4)
	source.printed("newcombe high", d.Interval.High, 0.3404, 4)
	r := must[Estimate](t)(KatzRatio(Against(high, standard), Level95))
	source.printed("ratio", r.Value, 7, 4)
	source.printed("katz low", r.Interval.Low, 0.9096, 4)
	source.printed("katz high", r.Interval.High, 53.8695, 4)
}

func TestIntervalsAreExactAtTheEnds(t *testing.T) {
	for level := 0.01; level < 1; level += 0.01 {
		for n := int64(1); n < 300; n++ {
			none, all := wilson(Proportion{0, n}, level), wilson(Proportion{n, n}, level)
			if none.Low != 0 || all.High != 1 {
				t.Fatalf("%d units at %v: %v with no hits, %v with nothing but hits", n, level, none, all)
			}
		}
	}
}

func TestNewcombeDifference(t *testing.T) {
	var file struct {
		Cases []struct {
			Case                string
			X1, N1, X2, N2      int64
			Published, Computed [2]float64
		} `json:"difference_method10"`
	}
	source := reference(t, "06_proportion_intervals.json", &file)
	for _, c := range file.Cases {
		got := must[Estimate](t)(NewcombeDifference(Proportion{c.X1, c.N1}, Proportion{c.X2, c.N2}, Level95))
		source.nearInterval("case "+c.Case, got.Interval, c.Computed)
		source.printed("case "+c.Case+" low", got.Interval.Low, c.Published[0], 4)
		source.printed("case "+c.Case+" high", got.Interval.High, c.Published[1], 4)
	}
}

func TestRatios(t *testing.T) {
	var file struct {
		Cases []struct {
			A, B, C, D int64
			Computed   struct {
				OR, RR float64
				Odds   [2]float64 `json:"or_ci"`
				Risk   [2]float64 `json:"rr_ci"`
			}
			Published struct{ OR, RR float64 }
		} `json:"or_rr"`
	}
	source := reference(t, "07_tables_fisher_chisq_or_rr.json", &file)
	c := file.Cases[0]
	table := Table2x2{c.A, c.B, c.C, c.D}
	odds := must[Estimate](t)(WoolfOddsRatio(table, Level95))
	ratio := must[Estimate](t)(KatzRatio(table, Level95))
	source.near("odds ratio", odds.Value, c.Computed.OR, tenDigits)
	source.near("risk ratio", ratio.Value, c.Computed.RR, tenDigits)
	source.nearInterval("odds ratio", odds.Interval, c.Computed.Odds)
	source.nearInterval("risk ratio", ratio.Interval, c.Computed.Risk)
	source.printed("odds ratio", odds.Value, c.Published.OR, 2)
	source.printed("risk ratio", ratio.Value, c.Published.RR, 2)
	source.printed("standard error", math.Log(odds.Interval.High/odds.Value)/1.959964, 0.123, 3)

	small := from(t, "statsmodels 0.15, test_contingency_tables.py, Test2x2_1: table of four twos")
	twos := Table2x2{2, 2, 2, 2}
	small.nearInterval("odds ratio", must[Estimate](t)(WoolfOddsRatio(twos, Level95)).Interval,
		[2]float64{0.062548836166112329, 15.987507702689751})
	small.nearInterval("risk ratio", must[Estimate](t)(KatzRatio(twos, Level95)).Interval,
		[2]float64{0.25009765325990629, 3.9984381579173824})
}

func TestRatiosThatZeroCountsLeaveOpen(t *testing.T) {
	for name, c := range map[string]struct {
		table       Table2x2
		katz, woolf bool
	}{
		"no hit in the group":     {Table2x2{0, 5, 3, 7}, false, false},
		"no hit in the reference": {Table2x2{3, 7, 0, 5}, false, false},
		"only hits in the group":  {Table2x2{5, 0, 3, 7}, true, false},
		"no units in the group":   {Table2x2{0, 0, 3, 7}, false, false},
		"only hits":               {Table2x2{5, 0, 7, 0}, true, false},
	} {
		katz := must[Estimate](t)(KatzRatio(c.table, Level95))
		woolf := must[Estimate](t)(WoolfOddsRatio(c.table, Level95))
		if katz.Defined != c.katz || woolf.Defined != c.woolf {
			t.Errorf("%s: katz %v, woolf %v", name, katz, woolf)
		}
		if (!katz.Defined && katz != Estimate{}) || (!woolf.Defined && woolf != Estimate{}) {
			t.Errorf("%s: an undefined estimate carries numbers: %v, %v", name, katz, woolf)
		}
	}
}
