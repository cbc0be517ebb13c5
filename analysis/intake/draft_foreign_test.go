package intake

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/intake/draft"
)

// draftedProfile drafts a profile with the answers given, KEY=VALUE, and writes it to a file.
func draftedProfile(t *testing.T, file string, given ...string) (draft.Draft, string) {
	t.Helper()
	var answers []draft.Answer
	for _, text := range given {
		answer, err := draft.ParseAnswer(text)
		if err != nil {
			t.Fatal(err)
		}
		answers = append(answers, answer)
	}
	drafted, err := draft.Read(context.Background(), file, answers...)
	if err != nil {
		t.Fatal(err)
	}
	return drafted, write(t, "draft.toml", drafted.TOML)
}

// keysOf are the keys of the questions that are open.
func keysOf(drafted draft.Draft) []string {
	var keys []string
	for _, question := range drafted.Questions {
		keys = append(keys, question.Key)
	}
	return keys
}

// Once the shop is named, the draft for the sample's wide list gives what the profile made by hand gives, with nothing
// set aside.
func TestDraftOfTheSampleList(t *testing.T) {
	open, _ := draftedProfile(t, foreignList)
	if diff := cmp.Diff([]string{"shop"}, keysOf(open)); diff != "" {
		t.Error(diff)
	}
	drafted, profile := draftedProfile(t, foreignList, "shop=Saltmarsh")
	byHand, byDraft := newHistory(t), newHistory(t)
	imported(t, byHand, Options{Files: []string{foreignList}, Profile: foreignProfile})
	result := imported(t, byDraft, Options{Files: []string{foreignList}, Profile: profile})
	for _, balance := range result.Files {
		if balance.Rejected != 0 {
			t.Errorf("%+v %v", balance, faultLines(t, byDraft))
		}
	}
	for _, kind := range []string{"jobs", "glass", "documents"} {
		if diff := cmp.Diff(contents(t, byHand)[kind], contents(t, byDraft)[kind]); diff != "" {
			t.Errorf("%s: %s", kind, diff)
		}
	}
	// Numbers are given here and read there; who did them, and the set-up of a first attempt, the list does not say by itself.
	for name, query := range map[string]string{
		"road tests": `select string_agg(concat_ws('|', job_no, started_at, ended_at, distance_km, outcome), chr(10) order by job_no, started_at) from road_tests`,
		"attempts": `select string_agg(concat_ws('|', job_no, system, position, started_at, ended_at, outcome, failure_code, failure_text),
			chr(10) order by job_no, system, position, started_at) from calibrations`,
		"set-up": `select string_agg(concat_ws('|', job_no, system, method, bay, equipment, target, software_version, procedure), chr(10) order by job_no, system, position)
			from calibrations as c
			where not exists (from calibrations as later where c.system = 'front_camera' and later.job_no = c.job_no and later.system = c.system and later.started_at > c.started_at)`,
		"scans":        `select string_agg(concat_ws('|', job_no, stage, scanned_at, modules_polled, modules_responded), chr(10) order by job_no, scanned_at) from scans`,
		"faults":       `select string_agg(concat_ws('|', job_no, module, code, status), chr(10) order by job_no, module, code, status) from faults`,
		"measurements": `select string_agg(concat_ws('|', job_no, system, quantity, value, unit), chr(10) order by job_no, system, quantity, value) from measurements`,
	} {
		if diff := cmp.Diff(one(t, byHand, query), one(t, byDraft, query)); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
	if t.Failed() {
		t.Log(drafted.TOML)
	}
}
