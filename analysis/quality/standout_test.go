package quality

import (
	"context"
	"strings"
	"testing"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// standoutsOf asks for the seventeenth month, 2025-05, of an invented group's eighteen.
func standoutsOf(t *testing.T, h *history.History) []Standout {
	t.Helper()
	things, err := Standouts(context.Background(), h, "2025-05")
	if err != nil {
		t.Fatal(err)
	}
	return things
}

func TestPlantedThingsStandOut(t *testing.T) {
	for name, c := range map[string]struct {
		plant func(*visit)
		want  Standout
	}{
		"a stand that is bad throughout": {func(v *visit) {
			if v.shop == "birch" && v.stand == "s2" {
				v.miss = 0.35
			}
		}, Standout{Kind: StandoutCall, Grouping: "equipment", Group: "birch/s2", Outcome: "not_first_pass", Consequence: 3}},
		"a stand that drifted in January": {func(v *visit) {
			if v.shop == "birch" && v.stand == "s2" && v.day >= 380 {
				v.miss = 0.5
			}
		}, Standout{Kind: StandoutChange, Grouping: "equipment", Group: "birch/s2", Outcome: "not_first_pass", Consequence: 3}},
		"a glass that comes back": {func(v *visit) {
			if v.source == "aftermarket" && v.hasGlass {
				v.back = 0.15
			}
		}, Standout{Kind: StandoutGlass, Grouping: "source", Group: "aftermarket", Outcome: "comeback", Consequence: 2}},
		"a person who leaves faults": {func(v *visit) {
			if v.person == "T3" && v.shop == "cedar" {
				v.fault = 0.2
			}
		}, Standout{Kind: StandoutCall, Grouping: "technician", Group: "cedar/T3", Outcome: "post_scan_fault", Consequence: 1}},
		"a shop without scans": {func(v *visit) {
			if v.shop == "cedar" {
				v.lacksScan = 0.25
			}
		}, Standout{Kind: StandoutGap, Grouping: "shop", Group: "cedar", Outcome: "missing_scan", Consequence: 4}},
		"a bad month": {func(v *visit) {
			if v.day >= 486 && v.day < 517 {
				v.miss = 0.4
			}
		}, Standout{Kind: StandoutSignal, Outcome: "not_first_pass", Consequence: 3}},
	} {
		t.Run(name, func(t *testing.T) {
			things := standoutsOf(t, invented{seed: 5, aDay: 6, days: 540, plant: c.plant}.history(t))
			for _, got := range things {
				if got.Kind == c.want.Kind && got.Grouping == c.want.Grouping && got.Group == c.want.Group && got.Outcome == c.want.Outcome {
					if got.Consequence != c.want.Consequence || got.Excess <= 0 || got.Excess != float64(got.Count)-got.Expected ||
						(got.Q == nil) != (got.Kind == StandoutSignal) {
						t.Errorf("%+v", got)
					}
					return
				}
			}
			t.Errorf("not among %+v", things)
		})
	}
}

// A bad stand is the only one of its bay and has one technician: it is named once, and they are named in its detail. Its own
// action is named with its verdict.
func TestABadStandIsNamedOnce(t *testing.T) {
	plant := func(v *visit) {
		if v.shop == "birch" && v.stand == "s2" {
			v.miss, v.person = 0.4, "T9"
		}
	}
	var named []Standout
	for _, thing := range standoutsOf(t, invented{seed: 7, aDay: 6, days: 540, plant: plant}.history(t)) {
		if thing.Outcome == "not_first_pass" && strings.HasPrefix(thing.Group, "birch") {
			named = append(named, thing)
		}
	}
	if len(named) != 1 || named[0].Grouping != "equipment" || !strings.Contains(named[0].Detail, "technician birch/T9") ||
		!strings.Contains(named[0].Detail, "bay birch/bay-s2") {
		t.Errorf("%+v", named)
	}
}

func TestNothingPlantedNothingStandsOut(t *testing.T) {
	if things := standoutsOf(t, invented{seed: 3, aDay: 4, days: 540}.history(t)); len(things) != 0 {
		t.Errorf("%+v", things)
	}
	things, err := Standouts(context.Background(), testkit.History(t, nil), "2025-05")
	if err != nil || len(things) != 0 {
		t.Errorf("%+v, %v", things, err)
	}
	if _, err := Standouts(context.Background(), testkit.History(t, nil), "May"); err == nil {
		t.Error("May passes for a month")
	}
}

// Actions are matched by what the record and the group call the subject.
func TestActionsOnThings(t *testing.T) {
	text := func(s string) *string { return &s }
	at := time.Date(2025, 3, 1, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		kind, subject, grouping, group string
		want                           bool
	}{
		{"equipment", "s2", "equipment", "birch/s2", true}, {"equipment", "s2", "equipment", "alder/s2", false},
		{"equipment", "s2", "bay", "birch/s2", false}, {"target", "b1", "target", "b1", true},
		{"supplier", "FENWIK", "supplier", "Fenwik", true}, {"software_version", "6.1", "software_version", "6.1", true},
		{"software_version", "6.1", "software_version", "6.2", false}, {"shop", "", "shop", "birch", true}, {"shop", "", "shop", "alder", false},
	} {
		a := Action{Shop: "birch", SubjectKind: c.kind, Subject: text(c.subject), TakenAt: at}
		if got := a.isOn(c.grouping, c.group); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}
