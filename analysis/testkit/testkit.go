// Package testkit makes small histories for tests from a few lines of records each. Only tests import it.
package testkit

import (
	"context"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
)

// Records are the lines of a history in the record layout, by kind: a header and the rows that matter. Required
// columns that a test leaves out get a plain value.
type Records map[string]string

// History lays the records into a fresh history in memory and looks back on it, as of its latest event.
func History(t testing.TB, records Records) *history.History {
	t.Helper()
	return HistoryAsked(t, history.Asked{}, records)
}

// HistoryAsked is History with a point of view of the test's own.
func HistoryAsked(t testing.TB, asked history.Asked, records Records) *history.History {
	t.Helper()
	ctx := context.Background()
	h, err := history.InMemory(ctx)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.Close() })
	load(t, h, records)
	if err := h.LookBack(ctx, asked); err != nil {
		t.Fatal(err)
	}
	return h
}

// plain are values of required columns that a test may leave out.
var plain = map[string][][2]string{
	"jobs":         {{"reason", "other"}},
	"glass":        {{"position", "windshield"}, {"source", "oem"}},
	"calibrations": {{"system", "front_camera"}, {"attempt_no", "1"}, {"outcome", "completed"}},
	"measurements": {{"unit", "mm"}},
	"scans":        {{"scan_no", "1"}},
	"faults":       {{"scan_no", "1"}, {"module", "camera"}, {"status", "active"}},
	"road_tests":   {{"test_no", "1"}, {"outcome", "passed"}},
	"documents":    {{"kind", "photo"}, {"file_name", "a.jpg"}},
}

// load imports the records as a user would, long after everything that they speak of.
func load(t testing.TB, h *history.History, records Records) {
	t.Helper()
	folder, options := t.TempDir(), intake.Options{Now: time.Date(2999, 1, 1, 0, 0, 0, 0, time.UTC), ToolVersion: "test"}
	for _, kind := range slices.Sorted(maps.Keys(records)) {
		file := filepath.Join(folder, kind+".csv")
		if err := os.WriteFile(file, []byte(completed(kind, records[kind])), 0o600); err != nil {
			t.Fatal(err)
		}
		options.Files = append(options.Files, file)
	}
	if len(options.Files) == 0 {
		return
	}
	result, err := intake.Import(context.Background(), h, options)
	if err != nil {
		t.Fatal(err)
	}
	for _, balance := range result.Files {
		if balance.Added != balance.Read {
			t.Fatalf("%s: of %d rows %d were added", balance.Kind, balance.Read, balance.Added)
		}
	}
}

// completed takes the indentation of a test's source off the lines and adds the columns left out.
func completed(kind, lines string) string {
	var header []string
	var text strings.Builder
	for line := range strings.Lines(lines) {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		isHeader := header == nil
		if isHeader {
			header = strings.Split(line, ",")
		}
		text.WriteString(line)
		for _, column := range plain[kind] {
			switch {
			case slices.Contains(header, column[0]):
			case isHeader:
				text.WriteString("," + column[0])
			default:
				text.WriteString("," + column[1])
			}
		}
		text.WriteString("\n")
	}
	return text.String()
}

// Time reads a moment as tests write it: 2026-03-09 14:05.
func Time(t testing.TB, text string) time.Time {
	t.Helper()
	moment, err := time.Parse("2006-01-02 15:04", text)
	if err != nil {
		t.Fatal(err)
	}
	return moment
}
