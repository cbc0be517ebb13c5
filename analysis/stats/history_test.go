package stats

import (
	"path/filepath"
	"strings"
	"testing"
)

// The folder holds counts of an invented history and the figures that two programs written independently of this one
// agree on. They check what the definitions decide (baseline, signals, which groups get a q), not the mathematics.
const historyFolder = "../../testdata/history-small/expected"

func historyFiles(t *testing.T, pattern string) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(historyFolder, pattern))
	if err != nil || len(paths) == 0 {
		t.Fatalf("no file %s: %v", pattern, err)
	}
	return paths
}

func TestTrendsOfHistory(t *testing.T) {
	for _, path := range historyFiles(t, "trend_*.csv") {
		t.Run(filepath.Base(path), func(t *testing.T) {
			rows := readRows(t, path)
			var periods []Period
			for i, r := range rows {
				// Wholly matured periods are usable; all of them before the reported (last) one are the baseline.
				matured := r["matured_share"] == "1.0"
				periods = append(periods, Period{Count: r.count(t, "count"), N: r.count(t, "n"),
					InBaseline: matured && i < len(rows)-1, Usable: matured})
			}
			draw := PChart
			if strings.Contains(path, "open_faults") {
				draw = UChart
			}
			chart, err := draw(periods)
			if err != nil {
				t.Fatal(err)
			}
			for i, r := range rows {
				point := chart.Points[i]
				r.same(t, "center", chart.Center, chart.Defined)
				r.same(t, "sigma_z", chart.SigmaZ, chart.SigmaZDefined)
				r.same(t, "rate", point.Rate, point.Defined)
				r.same(t, "lower", point.Lower, point.Defined)
				r.same(t, "upper", point.Upper, point.Defined)
				if got := joinSignals(point.Signals); got != r["signals"] {
					t.Errorf("%s: signals %q, want %q", r["period"], got, r["signals"])
				}
			}
		})
	}
}

func joinSignals(signals []Signal) string {
	var words []string
	for _, s := range signals {
		words = append(words, string(s))
	}
	return strings.Join(words, ";")
}

func TestComparisonsOfHistory(t *testing.T) {
	for _, path := range historyFiles(t, "compare_*.csv") {
		t.Run(filepath.Base(path), func(t *testing.T) {
			rows := readRows(t, path)
			var groups []Proportion
			for _, r := range rows {
				groups = append(groups, Proportion{Count: r.count(t, "count"), N: r.count(t, "n")})
			}
			all := pool(groups)
			for i, g := range groups {
				checkGroup(t, rows[i], g, all)
			}
		})
	}
}

func checkGroup(t *testing.T, r row, g, all Proportion) {
	t.Helper()
	interval, err := Wilson(g, Level95)
	if err != nil {
		t.Fatal(err)
	}
	funnel, err := FunnelLimits(all.Rate(), g.N)
	if err != nil {
		t.Fatal(err)
	}
	r.same(t, "rate", g.Rate(), true)
	r.same(t, "wilson_low", interval.Low, true)
	r.same(t, "wilson_high", interval.High, true)
	r.same(t, "funnel_95_low", funnel.Limits95.Low, true)
	r.same(t, "funnel_95_high", funnel.Limits95.High, true)
	r.same(t, "funnel_998_low", funnel.Limits998.Low, true)
	r.same(t, "funnel_998_high", funnel.Limits998.High, true)
}

func TestGlassOfHistory(t *testing.T) {
	rows := readRows(t, filepath.Join(historyFolder, "glass.csv"))
	var p []float64
	for _, r := range rows {
		group := Proportion{Count: r.count(t, "count"), N: r.count(t, "n")}
		reference := Proportion{Count: r.count(t, "reference_count"), N: r.count(t, "reference_n")}
		table := Against(group, reference)
		difference, err1 := NewcombeDifference(group, reference, Level95)
		ratio, err2 := KatzRatio(table, Level95)
		odds, err3 := WoolfOddsRatio(table, Level95)
		fisher, err4 := FisherExact(table)
		for _, err := range []error{err1, err2, err3, err4} {
			if err != nil {
				t.Fatal(err)
			}
		}
		for _, e := range []struct {
			value, low, high string
			got              Estimate
		}{
			{"risk_difference", "rd_low", "rd_high", difference},
			{"risk_ratio", "rr_low", "rr_high", ratio},
			{"odds_ratio", "or_low", "or_high", odds},
		} {
			r.same(t, e.value, e.got.Value, e.got.Defined)
			r.same(t, e.low, e.got.Interval.Low, e.got.Defined)
			r.same(t, e.high, e.got.Interval.High, e.got.Defined)
		}
		r.same(t, "fisher_p", fisher, true)
		p = append(p, fisher)
	}
	q, err := BenjaminiHochberg(p)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range rows {
		r.same(t, "q", q[i], true)
	}
}

// glassStrata are the front camera tasks of the history by make and model, not first pass and first pass, group over
// original-maker glass.
var glassStrata = map[string][]Table2x2{
	"oee": {{0, 6, 4, 7}, {2, 2, 0, 6}, {3, 8, 4, 16}, {0, 12, 2, 17}, {1, 7, 5, 24}, {0, 8, 3, 13}, {3, 11, 5, 24},
		{0, 3, 2, 7}, {1, 5, 2, 8}, {2, 5, 3, 17}},
	"aftermarket": {{8, 30, 2, 8}, {8, 21, 4, 7}, {2, 4, 3, 17}, {1, 1, 3, 13}, {1, 4, 4, 16}, {0, 8, 5, 24}, {1, 3, 5, 24},
		{0, 5, 2, 17}, {0, 2, 0, 6}, {0, 0, 2, 7}},
	"recycled": {{0, 1, 4, 16}, {0, 1, 4, 7}, {0, 0, 5, 24}, {0, 1, 3, 13}, {0, 1, 5, 24}, {0, 2, 2, 17}, {0, 3, 2, 8},
		{0, 1, 3, 17}, {0, 1, 0, 6}, {0, 0, 2, 7}},
}

func TestStratifiedGlassOfHistory(t *testing.T) {
	checked := 0
	for _, r := range readRows(t, filepath.Join(historyFolder, "glass.csv")) {
		strata := glassStrata[r["source"]]
		if r["outcome"] != "not_first_pass" {
			continue
		}
		checked++
		pooled, err := MantelHaenszel(strata, Level95)
		if err != nil {
			t.Fatal(err)
		}
		agreement, _, err := BreslowDay(strata)
		if err != nil {
			t.Fatal(err)
		}
		r.same(t, "mh_odds_ratio", pooled.OddsRatio.Value, pooled.OddsRatio.Defined)
		r.same(t, "mh_low", pooled.OddsRatio.Interval.Low, pooled.OddsRatio.Defined)
		r.same(t, "mh_high", pooled.OddsRatio.Interval.High, pooled.OddsRatio.Defined)
		r.same(t, "mh_chi2", pooled.Test.Statistic, pooled.Test.Defined)
		r.same(t, "mh_p", pooled.Test.P, pooled.Test.Defined)
		r.same(t, "bd_chi2", agreement.Statistic, agreement.Defined)
		r.same(t, "bd_p", agreement.P, agreement.Defined)
	}
	if checked != len(glassStrata) {
		t.Errorf("checked %d rows, want %d", checked, len(glassStrata))
	}
}
