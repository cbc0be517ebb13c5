package draft

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Answers are parted at the first = outside quotes; of several with one key the last counts, however its word is written.
func TestAnswers(t *testing.T) {
	for text, want := range map[string]Answer{
		"shop=Main":                      {"shop", "Main"},
		"jobs.reason== other":            {"jobs.reason", "= other"},
		`"jobs.reason: a=b"=other`:       {"jobs.reason: a=b", "other"},
		`jobs.reason: "a=b"=other`:       {`jobs.reason: "a=b"`, "other"},
		`rows "A = B": x=none`:           {`rows "A = B": x`, "none"},
		"calibrations.outcome: =aborted": {"calibrations.outcome:", "aborted"},
		" date_order = dmy ":             {"date_order", "dmy"},
	} {
		got, err := ParseAnswer(text)
		if err != nil || got != want {
			t.Errorf("%s: %+v %v", text, got, err)
		}
	}
	s, err := readAnswers([]Answer{{"jobs.reason: Glass", "other"}, {"jobs.reason: GLASS", "windshield_replacement"}, {"calibrations.outcome:", "aborted"},
		{"calibrations[2].outcome: ~again", "failed then completed"}, {"rows What: PRE", "faults"}, {"rows What: pre", "scans[2]"}, {"measurements[3].value unit", "in"},
		{"technician: jd", "T1"}, {`jobs.reason: "a=b"`, "other"}})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(map[string]string{"GLASS": "windshield_replacement", "a=b": "other"}, s.wordsFor(fieldKey{"jobs", 1, "reason"})); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(map[string]string{"": "aborted", "~again": "failed then completed"}, s.wordsFor(fieldKey{"calibrations", 2, "outcome"})); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(map[string]string{"jd": "T1"}, s.wordsFor(fieldKey{"scans", 1, "technician"})); diff != "" {
		t.Error(diff)
	}
	if len(s.rows) != 1 || s.rows[0].kind != "scans" || s.rows[0].n != 2 || s.units[fieldKey{"measurements", 3, "value"}] != "in" {
		t.Errorf("%+v", s)
	}
}

// Every language's file names only columns that the layout has, and turns words only into listed ones.
func TestLanguagesNameWhatTheLayoutHas(t *testing.T) {
	for name, words := range spoken.Words {
		for word, meaning := range words {
			found := false
			for _, target := range targets {
				found = found || target.field == name
			}
			if !found || word != plain(word) {
				t.Errorf("%s: %q = %q", name, word, meaning)
			}
		}
	}
}
