package main

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
	"plumbline/analysis/quality"
	sampledata "plumbline/sample-data"
)

// A plant is a thing that the scenario has planted, and the months in whose reviews it must stand out: not from its
// first day on, for few tasks tell little. Of several ways to say it one is enough: what goes away without the other is
// folded into it.
type plant struct {
	ways     []string
	from, to string
}

var plants = []plant{
	{[]string{"gap Ferry missing_scan"}, "2025-01", "2026-09"},
	{[]string{"supplier Ostrel not_first_pass", "model Kavero Tansy not_first_pass"}, "2025-12", "2026-09"},
	{[]string{"supplier Ostrel comeback"}, "2026-02", "2026-09"},
	{[]string{"equipment Kestrel/K-ST3 not_first_pass"}, "2025-12", "2026-02"},
	{[]string{"equipment Tannery/T-ST2 not_first_pass"}, "2026-06", "2026-09"},
}

// spill tells what follows from a plant without being one: the models that are hard to calibrate on whatever glass
// (models.go), the model that the bad glass is made for, and whoever works at a stand while it stands crooked.
func spill(s quality.Standout) bool {
	drifting := map[string]string{"Kestrel": "K-", "Tannery": "T-"}
	shop, _, _ := strings.Cut(s.Group, "/")
	switch s.Grouping {
	case "model":
		return slices.Contains([]string{"Ombrix Thicket", "Ombrix Ferrule", "Merrow Wend", "Kavero Tansy"}, s.Group)
	case "brand":
		return s.Group == "Orrest"
	case "technician", "bay", "equipment":
		return drifting[shop] != "" && s.Outcome == "not_first_pass"
	case "target":
		return strings.HasPrefix(s.Group, "K-") || strings.HasPrefix(s.Group, "T-")
	case "software_version": // the release that was in use while the first stand stood crooked
		return s.Group == "5.9.1"
	}
	return false
}

// The review's first page is true in every month of the scenario: what is planted stands out as soon as there is enough
// of it, and what stands out beside it is at most two things. One in twenty lists may hold one by chance, and twelve
// months that overlap show it again and again.
func TestWhatStandsOutIsWhatWasPlanted(t *testing.T) {
	h := sampleHistory(t)
	chance := map[string][]string{}
	for month := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC); month.Before(time.Date(2026, 10, 1, 0, 0, 0, 0, time.UTC)); month = month.AddDate(0, 1, 0) {
		name := month.Format("2006-01")
		things, err := quality.Standouts(context.Background(), h, name)
		if err != nil {
			t.Fatal(err)
		}
		listed := map[string]bool{}
		for _, s := range things {
			what := fmt.Sprintf("%s %s %s", s.Grouping, s.Group, s.Outcome)
			if s.Kind == quality.StandoutGap {
				what = fmt.Sprintf("gap %s %s", s.Group, s.Outcome)
			}
			listed[what] = true
			isPlanted := slices.ContainsFunc(plants, func(p plant) bool { return slices.Contains(p.ways, what) })
			if !isPlanted && !spill(s) {
				chance[what] = append(chance[what], name)
			}
		}
		for _, p := range plants {
			if p.from <= name && name <= p.to && !slices.ContainsFunc(p.ways, func(what string) bool { return listed[what] }) {
				t.Errorf("%s: %s is planted and does not stand out", name, strings.Join(p.ways, " or "))
			}
		}
	}
	if len(chance) > 2 {
		t.Errorf("%d things stand out that nobody planted, want at most 2: %v", len(chance), chance)
	}
}

// sampleHistory imports the sample into a history of its own, looked back from its latest event.
func sampleHistory(t *testing.T) *history.History {
	t.Helper()
	dir, ctx := t.TempDir(), context.Background()
	files, err := sampledata.Unpack(dir)
	if err != nil {
		t.Fatal(err)
	}
	h, err := history.InMemory(ctx)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.Close() })
	if _, err := intake.Import(ctx, h, intake.Options{Files: files, Now: time.Date(2026, 11, 24, 12, 0, 0, 0, time.UTC)}); err != nil {
		t.Fatal(err)
	}
	if err := h.LookBack(ctx, history.Asked{}); err != nil {
		t.Fatal(err)
	}
	return h
}
