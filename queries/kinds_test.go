package queries

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// sound is a header that says everything; each case of TestHeadersOfKinds spoils one line of it.
const sound = `-- Vehicles driven too early.
--
-- One row: one job and class.
-- Columns:
--   class  one of the classes below
--   shop   the shop's identifier
-- Finding:
--   name      Adhesive not ready
--   means     Driven too early.
--   rule      A road test that starts before
--             the adhesive is ready.
--   page      evidence 150, repeats 7, told as a share of jobs
--   severity  high where class is driven or towed; low where system is present; else medium
--   identity  keys and class
-- Classes:
--   driven  driven away (by its owner)
--   towed   towed
-- Decide:
--   10  where class is driven: Driven too early: who knew? The glass
--       can move.
--   20  Any other. It may have moved.
-- Source: definitions, Evidence. Common
-- practice.
select 1`

func TestHeaderOfAKind(t *testing.T) {
	got, err := readKind("adhesive", sound)
	if err != nil {
		t.Fatal(err)
	}
	want := Kind{
		Name: "adhesive", Title: "Adhesive not ready", Means: "Driven too early.",
		Rule: "A road test that starts before the adhesive is ready.", Source: "definitions, Evidence. Common practice.",
		Places: []Place{{"evidence", 150}, {"repeats", 7}}, IsShare: true, ClassIdentifies: true,
		Classes:    []Class{{"driven", "driven away"}, {"towed", "towed"}},
		Severities: []Severity{{"high", Condition{Classes: []string{"driven", "towed"}}}, {"low", Condition{HasSystem: true}}, {"medium", Condition{}}},
		Decisions: []Decision{
			{10, Condition{Classes: []string{"driven"}}, "Driven too early: who knew?", "The glass can move."},
			{20, Condition{}, "Any other", "It may have moved."},
		},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	const severity = "case when class in ('driven', 'towed') then 'high' when system is not null then 'low' when true then 'medium' end"
	if got.severitySQL() != severity {
		t.Errorf("severity is %s", got.severitySQL())
	}
}

// A header that leaves something open is refused with the file and what is wrong, so that no kind goes without its words.
func TestHeadersOfKinds(t *testing.T) {
	for _, spoiled := range []struct{ from, to, want string }{
		{"--   name      Adhesive not ready\n", "", "no name"},
		{"--   means     Driven too early.\n", "", "no means"},
		{"--   rule      A road test that starts before\n--             the adhesive is ready.\n", "", "no rule"},
		{"-- Source: definitions, Evidence. Common\n-- practice.\n", "", "no Source"},
		{"evidence 150, repeats 7", "evidence", `page "evidence"`},
		{"evidence 150, repeats 7", "evidence 150, 7", `page "evidence 150, 7"`},
		{", told as a share of jobs", ", told as shares", `told as shares"`},
		{"evidence 150, repeats 7", "evidence 0", `page "evidence 0"`},
		{"keys and class", "class", `identity "class"`},
		{"--   class  one of the classes below\n", "", "do not go together"},
		{"--   driven  driven away (by its owner)\n--   towed   towed\n", "", "do not go together"},
		{"high where class is driven or towed", "grave where class is driven", "severity"},
		{"high where class is driven or towed", "high where class is pushed", `severity`},
		{"high where class is driven or towed", "high if driven", `severity`},
		{"high where class is driven or towed", "high", `severity`},
		{"; else medium", "; medium", "does not end in else"},
		{"; else medium", "; else medium where system is present", "severity"},
		{"--   10  where class is driven", "--   10  where class is pushed", `no class "pushed"`},
		{"--   10  where class", "--   first  where class", "decide"},
		{"20  Any other. It may have moved.", "20  Any other.", "decide"},
	} {
		if !strings.Contains(sound, spoiled.from) {
			t.Fatalf("the sound header does not hold %q", spoiled.from)
		}
		_, err := readKind("adhesive", strings.Replace(sound, spoiled.from, spoiled.to, 1))
		if err == nil || !strings.Contains(err.Error(), spoiled.want) || !strings.Contains(err.Error(), "findings/adhesive.sql") {
			t.Errorf("with %q in place of %q the error is %v", spoiled.to, spoiled.from, err)
		}
	}
}

// Every kind can be read, stands on a place of its own on a page that the review has, and every rank is given once.
func TestCatalogue(t *testing.T) {
	places, ranks, titles := map[Place]string{}, map[int]string{}, map[string]string{}
	for _, name := range Kinds() {
		kind, err := readKind(name, mustSQL("findings/"+name))
		if err != nil {
			t.Error(err)
		}
		for _, place := range kind.Places {
			if other := places[place]; other != "" {
				t.Errorf("%s and %s have one place on the page %s", other, name, place.Page)
			}
			places[place] = name
		}
		if other := titles[kind.Title]; other != "" {
			t.Errorf("%s and %s are both called %q", other, name, kind.Title)
		}
		titles[kind.Title] = name
		for _, decision := range kind.Decisions {
			if other := ranks[decision.Rank]; other != "" {
				t.Errorf("%s and %s both have rank %d", other, name, decision.Rank)
			}
			ranks[decision.Rank] = name
		}
	}
	if len(Catalogue()) != len(Kinds()) || len(places) < 23 {
		t.Errorf("%d kinds, %d places", len(Catalogue()), len(places))
	}
}

// Severities as the definitions list them: high and low ones by name, all others medium.
// Source: definitions, Severity.
func TestSeverities(t *testing.T) {
	want := map[string]string{
		"unresolved_calibration": "high", "comeback linked": "high", "comeback probable": "high", "comeback uncalibrated": "high",
		"post_scan_fault with a system": "high", "missing_calibration equipped": "high", "uncured_glass driven": "high",
		"equipment_overdue failed": "high", "vin_problem": "low", "broken_link": "low", "incomplete_scan": "low",
		"unit_suspect": "low", "equipment_overdue unchecked": "low", "comeback continuation": "low",
	}
	got := map[string]string{}
	for _, kind := range Catalogue() {
		for _, severity := range kind.Severities {
			if severity.Word == "medium" {
				continue
			}
			switch {
			case severity.When.HasSystem:
				got[kind.Name+" with a system"] = severity.Word
			case severity.When.Classes == nil:
				got[kind.Name] = severity.Word
			}
			for _, class := range severity.When.Classes {
				got[kind.Name+" "+class] = severity.Word
			}
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// The class is in a finding's identifier exactly where the definitions say so.
// Source: definitions, "A finding's identifier".
func TestIdentity(t *testing.T) {
	var got []string
	for _, kind := range Catalogue() {
		if kind.ClassIdentifies {
			got = append(got, kind.Name)
		}
	}
	want := []string{"equipment_overdue", "impossible_order", "missing_document", "missing_scan", "overlapping_work", "uncured_glass"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// A kind that this version does not know, and a class, are told by their names.
func TestWordsOfStrangers(t *testing.T) {
	if got := KindNamed("lost_bolt").Title; got != "Lost bolt" {
		t.Errorf("the title is %q", got)
	}
	if got := KindNamed("").Title; got != "" {
		t.Errorf("the title of nothing is %q", got)
	}
	if got := KindNamed("missing_document").ClassTitle("pre_scan_report"); got != "pre scan report" {
		t.Errorf("the class is %q", got)
	}
	if got := KindNamed("missing_scan").ClassTitle("interim_scan"); got != "interim scan" {
		t.Errorf("the class is %q", got)
	}
	if got := KindNamed("lost_bolt").ClassTitle(""); got != "" {
		t.Errorf("no class is %q", got)
	}
}
