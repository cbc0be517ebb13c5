package quality

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
	"plumbline/analysis/stats"
)

// The folders hold invented histories, dense with edge cases, and what two programs written independently of this one and
// of each other make of them by the same definitions. Every value of every column that they give must be equal.
var workedExamples = []string{"history-small", "history-calls", "history-patterns"}

// relative is how far two numbers may be apart, as a share of the expected one.
const relative = 1e-6

func TestWorkedExamples(t *testing.T) {
	for _, folder := range workedExamples {
		t.Run(folder, func(t *testing.T) {
			example := worked{t: t, ctx: context.Background(), h: openExample(t, folder),
				folder: filepath.Join("../../testdata", folder, "expected")}
			example.trends()
			example.comparisons()
			example.glass()
			example.curve()
			example.findings()
		})
	}
}

// worked is one example while it is compared.
type worked struct {
	t      *testing.T
	ctx    context.Context
	h      *history.History
	folder string
}

func (w worked) trends() {
	for _, outcome := range TrendOutcomes {
		points, err := Trend(w.ctx, w.h, TrendQuery{Outcome: outcome, By: Month})
		if err != nil {
			w.t.Fatal(err)
		}
		compareRows(w, "trend_"+string(outcome)+".csv", []string{"period"}, points)
	}
}

func (w worked) comparisons() {
	files, err := filepath.Glob(w.folder + "/compare_*.csv")
	if err != nil || len(files) == 0 {
		w.t.Fatalf("no expected comparisons: %v", err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(file), "compare_"), ".csv")
		by, outcome, _ := strings.Cut(name, "_")
		c, err := Compare(w.ctx, w.h, by, Outcome(outcome), Filter{})
		if err != nil {
			w.t.Fatal(err)
		}
		compareRows(w, filepath.Base(file), []string{"group"}, c.Groups)
	}
}

func (w worked) glass() {
	rows, err := Glass(w.ctx, w.h, nil, Filter{})
	if err != nil {
		w.t.Fatal(err)
	}
	compareRows(w, "glass.csv", []string{"outcome", "source"}, rows)
}

func (w worked) curve() {
	curves, _, err := Curves(w.ctx, w.h, "", Filter{})
	if err != nil || len(curves) != 1 {
		w.t.Fatalf("%d curves, %v", len(curves), err)
	}
	compareRows(w, "comeback_curve.csv", nil, curves[0].Steps)
}

func (w worked) findings() {
	findings, err := Findings(w.ctx, w.h, Filter{})
	if err != nil {
		w.t.Fatal(err)
	}
	expected := w.read("findings.csv")
	seen := map[string]int{}
	for _, row := range expected {
		if row["kind"] == "missing_calibration" && row["class"] != "alignment" {
			row["system"] = "front_camera" // left empty there, filled here
		}
		seen[identity(row)]++
	}
	ids := map[string]bool{}
	for _, f := range findings {
		if ids[f.Finding] {
			w.t.Errorf("two findings are called %s", f.Finding)
		}
		ids[f.Finding] = true
		row := map[string]string{}
		for name, cell := range cellsOf(f) {
			row[name] = show(cell)
		}
		if f.Kind != "missing_document" {
			seen[identity(row)]--
		}
	}
	for finding, times := range seen {
		if times != 0 {
			w.t.Errorf("expected %+d more of %s", times, finding)
		}
	}
}

// identity is a finding by the columns that the examples give.
func identity(row map[string]string) string {
	var parts []string
	for _, column := range []string{"kind", "class", "shop", "job_no", "vin", "system", "position", "attempt_no", "subject",
		"prior_shop", "prior_job_no", "prior_system", "prior_position", "prior_attempt_no"} {
		parts = append(parts, row[column])
	}
	return strings.Join(parts, "|")
}

// compareRows matches rows by their key, or by their place where there is none, and compares the columns of the file.
func compareRows[Row any](w worked, file string, key []string, rows []Row) {
	w.t.Helper()
	expected := w.read(file)
	if len(expected) != len(rows) {
		w.t.Errorf("%s: %d rows, expected %d", file, len(rows), len(expected))
	}
	byKey := map[string]map[string]any{}
	for i, row := range rows {
		cells := cellsOf(row)
		byKey[rowKey(key, i, func(column string) string { return show(cells[column]) })] = cells
	}
	for i, row := range expected {
		name := rowKey(key, i, func(column string) string { return row[column] })
		mine := byKey[name]
		if mine == nil {
			w.t.Errorf("%s: no row %s", file, name)
			continue
		}
		for column, want := range row {
			if cell, has := mine[column]; !has || !equal(want, show(cell)) {
				w.t.Errorf("%s, row %s: %s is %s, expected %q", file, name, column, show(cell), want)
			}
		}
	}
}

// cellsOf spreads a struct as the command line does: a field is its name in snake case, or its tag.
func cellsOf(row any) map[string]any {
	cells, v := map[string]any{}, reflect.ValueOf(row)
	for i := range v.NumField() {
		field := v.Type().Field(i)
		name := field.Tag.Get("col")
		if name == "" {
			name = snakeCase(field.Name)
		}
		if field.IsExported() {
			cells[name] = v.Field(i).Interface()
		}
	}
	return cells
}

func snakeCase(name string) string {
	var b strings.Builder
	for i, r := range name {
		if i > 0 && unicode.IsUpper(r) && unicode.IsLower(rune(name[i-1])) {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
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

// equal compares two texts, numbers by their value; an empty text means none.
func equal(want, got string) bool {
	expected, err := strconv.ParseFloat(want, 64)
	if err != nil || got == "" {
		return want == got
	}
	mine, err := strconv.ParseFloat(got, 64)
	return err == nil && math.Abs(mine-expected) <= relative*math.Max(math.Abs(expected), 1e-9)
}

// show writes a cell as text, nothing for none.
func show(cell any) string {
	v := reflect.ValueOf(cell)
	switch {
	case !v.IsValid():
		return ""
	case v.Kind() == reflect.Pointer && v.IsNil():
		return ""
	case v.Kind() == reflect.Pointer:
		return show(v.Elem().Interface())
	case v.Kind() == reflect.Float64:
		return strconv.FormatFloat(v.Float(), 'g', -1, 64)
	case v.CanInt():
		return strconv.FormatInt(v.Int(), 10)
	}
	if signals, is := cell.([]stats.Signal); is {
		words := make([]string, len(signals))
		for i, signal := range signals {
			words[i] = string(signal)
		}
		return strings.Join(words, ";")
	}
	return v.String()
}

func (w worked) read(file string) []map[string]string {
	w.t.Helper()
	f, err := os.Open(filepath.Join(w.folder, file))
	if err != nil {
		w.t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		w.t.Fatal(err)
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

func openSmall(t *testing.T) *history.History { return openExample(t, "history-small") }

// openExample imports an example and looks back on it, as of its latest event.
func openExample(t *testing.T, folder string) *history.History {
	t.Helper()
	ctx := context.Background()
	h, err := history.InMemory(ctx)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.Close() })
	result, err := intake.Import(ctx, h, intake.Options{
		Files: []string{filepath.Join("../../testdata", folder)}, Now: time.Date(2026, 11, 24, 12, 0, 0, 0, time.UTC)})
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
