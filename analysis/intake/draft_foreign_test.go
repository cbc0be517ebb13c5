package intake

import (
	"context"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/intake/draft"
)

// drafted drafts a profile and writes it to a file, with lines replaced.
func draftedProfile(t *testing.T, file string, mend ...string) (draft.Draft, string) {
	t.Helper()
	draft, err := draft.Read(context.Background(), file)
	if err != nil {
		t.Fatal(err)
	}
	return draft, write(t, "draft.toml", strings.NewReplacer(mend...).Replace(draft.TOML))
}

// Once the shop is named, the draft for the sample's wide list gives what the profile made by hand gives, with nothing
// set aside.
func TestDraftOfTheSampleList(t *testing.T) {
	draft, profile := draftedProfile(t, foreignList, `# shop = { constant = "the shop's name" }`, `shop = { constant = "Saltmarsh" }`)
	if diff := cmp.Diff([]string{"jobs.shop"}, draft.Missing); diff != "" {
		t.Error(diff)
	}
	drafted, byHand := newHistory(t), newHistory(t)
	imported(t, byHand, Options{Files: []string{foreignList}, Profile: foreignProfile})
	result := imported(t, drafted, Options{Files: []string{foreignList}, Profile: profile})
	for _, balance := range result.Files {
		if balance.Rejected != 0 {
			t.Errorf("%+v %v", balance, faultLines(t, drafted))
		}
	}
	want, got := contents(t, byHand), contents(t, drafted)
	for kind := range want {
		if kind == "calibrations" { // who did them, and the set-up of a first attempt, the list does not say by itself
			continue
		}
		if diff := cmp.Diff(want[kind], got[kind]); diff != "" {
			t.Errorf("%s: %s", kind, diff)
		}
	}
	const attempts = `select string_agg(concat_ws('|', job_no, system, position, attempt_no, started_at, ended_at, outcome, failure_code, failure_text),
		chr(10) order by job_no, system, position, attempt_no) from calibrations`
	if diff := cmp.Diff(one(t, byHand, attempts), one(t, drafted, attempts)); diff != "" {
		t.Error(diff)
	}
	const setUp = `select string_agg(concat_ws('|', job_no, system, method, bay, equipment, target, software_version, procedure), chr(10) order by job_no, system, position)
		from calibrations where attempt_no > 1 or system <> 'front_camera'`
	if diff := cmp.Diff(one(t, byHand, setUp), one(t, drafted, setUp)); diff != "" {
		t.Error(diff)
	}
	if t.Failed() {
		t.Log(draft.TOML)
	}
}
