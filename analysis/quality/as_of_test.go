package quality

import (
	"context"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
)

// cut makes a history one that ends at $as_of: what came later is taken out of the records themselves.
var cut = []string{
	"delete from jobs where opened_at > $as_of::timestamp",
	"update jobs set closed_at = null where closed_at > $as_of::timestamp",
	"delete from calibrations where started_at > $as_of::timestamp",
	"update calibrations set ended_at = null where ended_at > $as_of::timestamp",
	"delete from road_tests where started_at > $as_of::timestamp",
	"update road_tests set ended_at = null where ended_at > $as_of::timestamp",
	"delete from scans where scanned_at > $as_of::timestamp",
	"delete from glass where installed_at > $as_of::timestamp",
	"delete from documents where added_at > $as_of::timestamp",
	"delete from equipment_checks where checked_at > $as_of::timestamp",
}

// TestLookingBackIsAsIfTheRestHadNotHappened compares a history read as of a moment with one that ends there.
func TestLookingBackIsAsIfTheRestHadNotHappened(t *testing.T) {
	ctx := context.Background()
	for _, text := range []string{"2024-07-10 12:00:00", "2025-01-15 12:00:00", "2026-01-20 09:30:00"} {
		at, err := time.Parse(time.DateTime, text)
		if err != nil {
			t.Fatal(err)
		}
		whole, ended := openSmall(t), openSmall(t)
		for _, statement := range cut {
			_, err := ended.Run(ctx, history.Statement{Name: "cut", SQL: statement}, history.Params{"as_of": at})
			if err != nil {
				t.Fatal(err)
			}
		}
		if diff := cmp.Diff(figures(t, ended, at), figures(t, whole, at)); diff != "" {
			t.Errorf("as of %s (- ended there, + looked back):\n%s", text, diff)
		}
	}
}

// figures is all that a reader can ask of a moment, with a window that is not the usual one.
func figures(t *testing.T, h *history.History, at time.Time) []any {
	t.Helper()
	ctx := context.Background()
	if err := h.LookBack(ctx, history.Asked{AsOf: &at, WindowDays: 45}); err != nil {
		t.Fatal(err)
	}
	findings, err := Findings(ctx, h, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	if len(findings) < 100 {
		t.Fatalf("only %d findings: the history says too little to compare", len(findings))
	}
	all := []any{findings}
	for _, outcome := range TrendOutcomes {
		points, err := Trend(ctx, h, TrendQuery{Outcome: outcome, By: Month})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, points)
	}
	rows, err := Glass(ctx, h, nil, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	return append(all, rows)
}
