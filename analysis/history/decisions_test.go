package history_test

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
	"plumbline/analysis/testkit"
)

// cameBack is one job and the return visit that its shop linked to it: one comeback, and a failed attempt.
var cameBack = testkit.Records{
	"jobs": `shop,job_no,vin,opened_at,closed_at,reason,comeback_of
		alder,1,,2026-01-05 08:00,2026-01-05 17:00,camera_removed,
		alder,2,,2026-01-20 08:00,2026-01-20 17:00,warning_light,1`,
	"calibrations": `shop,job_no,started_at,ended_at,outcome
		alder,1,2026-01-05 09:00,2026-01-05 09:30,completed
		alder,2,2026-01-20 09:00,2026-01-20 09:30,failed`,
}

func findingOf(t *testing.T, h *history.History, kind string) string {
	t.Helper()
	found, err := quality.Findings(context.Background(), h, quality.Filter{Kinds: []string{kind}})
	if err != nil || len(found) != 1 {
		t.Fatalf("%d findings of kind %s, %v", len(found), kind, err)
	}
	return found[0].Finding
}

func TestDecisionIsKeptWithItsHistory(t *testing.T) {
	ctx := context.Background()
	h := testkit.History(t, cameBack)
	finding := findingOf(t, h, "comeback")
	monday := time.Date(2026, 2, 2, 9, 0, 0, 0, time.FixedZone("", 3600))
	first, err := history.Decide(ctx, h, history.Decision{Finding: strings.ToUpper(finding[:6]),
		Verdict: history.Dismissed, By: " T07 ", At: monday, Note: "other damage"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := history.Decide(ctx, h, history.Decision{Finding: finding, Verdict: history.Undone, By: "T01",
		At: monday.Add(time.Hour), Note: "was the same damage"}); err != nil {
		t.Fatal(err)
	}
	want := []history.Decision{
		{Number: 1, Finding: finding, Verdict: history.Dismissed, By: "T07",
			At: time.Date(2026, 2, 2, 9, 0, 0, 0, time.UTC), Note: "other damage"},
		{Number: 2, Finding: finding, Verdict: history.Undone, By: "T01",
			At: time.Date(2026, 2, 2, 10, 0, 0, 0, time.UTC), Note: "was the same damage"},
	}
	got, err := history.Decisions(ctx, h, finding)
	if diff := cmp.Diff(want, got); diff != "" || err != nil {
		t.Errorf("-want +got\n%s%v", diff, err)
	}
	if diff := cmp.Diff(want[0], first); diff != "" {
		t.Errorf("Decide gave back -want +got\n%s", diff)
	}
}

// counted says whether the one comeback counts, after looking back anew.
func counted(t *testing.T, h *history.History) bool {
	t.Helper()
	if err := h.LookBack(context.Background(), history.Asked{}); err != nil {
		t.Fatal(err)
	}
	lines, err := quality.Rework(context.Background(), h, quality.Filter{})
	if err != nil {
		t.Fatal(err)
	}
	return len(lines) == 1 && lines[0].Cause == quality.ComebackCause
}

func TestDismissedComebackLeavesTheFiguresAndUndoBringsItBack(t *testing.T) {
	ctx := context.Background()
	h := testkit.History(t, cameBack)
	finding := findingOf(t, h, "comeback")
	if !counted(t, h) {
		t.Fatal("a linked comeback must count")
	}
	at := testkit.Time(t, "2026-02-02 09:00")
	if _, err := history.Decide(ctx, h, history.Decision{Finding: finding, Verdict: history.Dismissed, By: "T07", At: at,
		Note: "other damage"}); err != nil {
		t.Fatal(err)
	}
	if counted(t, h) {
		t.Error("a dismissed comeback still counts")
	}
	if _, err := history.Decide(ctx, h, history.Decision{Finding: finding, Verdict: history.Undone, By: "T01", At: at,
		Note: "same damage"}); err != nil {
		t.Fatal(err)
	}
	if !counted(t, h) {
		t.Error("the comeback does not count again after its dismissal was undone")
	}
}

func TestDecisionsRefused(t *testing.T) {
	ctx := context.Background()
	h := testkit.History(t, cameBack)
	finding := findingOf(t, h, "comeback")
	at := testkit.Time(t, "2026-02-02 09:00")
	good := history.Decision{Finding: finding, Verdict: history.Confirmed, By: "T07", At: at, Note: "seen"}
	if _, err := history.Decide(ctx, h, good); err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		change func(*history.Decision)
		says   string
	}{
		{func(d *history.Decision) { d.By = " " }, "a decision needs a name: say who decides"},
		{func(d *history.Decision) { d.Note = "" }, "a decision needs a reason: say why"},
		{func(d *history.Decision) { d.At = time.Time{} }, "a decision needs a time"},
		{func(d *history.Decision) { d.Verdict = "maybe" }, `verdict "maybe" is not one of confirmed, dismissed, undone`},
		{func(d *history.Decision) { d.Finding = "12345" }, `"12345" is not a finding: give at least the first 6 of its ` +
			`16 digits, as plumbline findings lists them`},
		{func(d *history.Decision) { d.Finding = "ffffffff" },
			"no finding begins with ffffffff: plumbline findings lists those that there are"},
		{func(d *history.Decision) {
			d.Finding, d.Verdict = findingOf(t, h, "failed_calibration"), history.Undone
		},
			"finding " + findingOf(t, h, "failed_calibration") + " has no decision to undo"},
		{func(d *history.Decision) { d.At = at.Add(-time.Hour) }, "finding " + finding +
			" was decided on at 2026-02-02 09:00:00, later than 2026-02-02 08:00:00: check this machine's clock"},
	}
	for _, c := range cases {
		d := good
		c.change(&d)
		if _, err := history.Decide(ctx, h, d); err == nil || err.Error() != c.says {
			t.Errorf("got %v\nwant %s", err, c.says)
		}
	}
	if kept, err := history.Decisions(ctx, h, ""); err != nil || len(kept) != 1 {
		t.Errorf("%d decisions kept, %v; only the first was in order", len(kept), err)
	}
}

func TestDecisionsTravelAsCSV(t *testing.T) {
	ctx := context.Background()
	one, other := testkit.History(t, cameBack), testkit.History(t, cameBack)
	finding := findingOf(t, one, "comeback")
	at := testkit.Time(t, "2026-02-02 09:00")
	for _, d := range []history.Decision{
		{Finding: finding, Verdict: history.Dismissed, By: "T07", At: at, Note: "says \"no\",\nsecond line"},
		{Finding: finding, Verdict: history.Confirmed, By: "T01", At: at.Add(time.Minute), Note: "on reflection"},
	} {
		if _, err := history.Decide(ctx, one, d); err != nil {
			t.Fatal(err)
		}
	}
	var file bytes.Buffer
	if err := history.ExportDecisions(ctx, one, &file); err != nil {
		t.Fatal(err)
	}
	for _, want := range []history.DecisionBalance{{Read: 2, Added: 2}, {Read: 2, Unchanged: 2}} {
		got, err := history.ImportDecisions(ctx, other, "decisions.csv", bytes.NewReader(file.Bytes()))
		if err != nil || got != want {
			t.Errorf("balance %+v, %v; want %+v", got, err, want)
		}
	}
	sent, _ := history.Decisions(ctx, one, "")
	arrived, err := history.Decisions(ctx, other, "")
	if diff := cmp.Diff(sent, arrived); diff != "" || err != nil {
		t.Errorf("-sent +arrived\n%s%v", diff, err)
	}
}

func TestAnOlderDecisionFromAFileDoesNotOutweighALaterOne(t *testing.T) {
	ctx := context.Background()
	h := testkit.History(t, cameBack)
	finding := findingOf(t, h, "comeback")
	if _, err := history.Decide(ctx, h, history.Decision{Finding: finding, Verdict: history.Dismissed, By: "T07",
		At: testkit.Time(t, "2026-02-02 09:00"), Note: "other damage"}); err != nil {
		t.Fatal(err)
	}
	file := "Note,finding,verdict,decided_by,at\nearlier view," + finding + ",confirmed,T01,2026-02-01T09:00:00\n" +
		"no such record,00000000000000aa,confirmed,T01,2026-02-01 09:00:00\n"
	balance, err := history.ImportDecisions(ctx, h, "decisions.csv", strings.NewReader(file))
	if want := (history.DecisionBalance{Read: 2, Added: 2, NotRaised: 1}); err != nil || balance != want {
		t.Errorf("balance %+v, %v; want %+v", balance, err, want)
	}
	if counted(t, h) {
		t.Error("the older confirmation outweighs the later dismissal")
	}
}

func TestAFaultyFileOfDecisionsChangesNothing(t *testing.T) {
	ctx := context.Background()
	h := testkit.History(t, cameBack)
	file := "finding,verdict,decided_by,at,note\n" +
		"00000000000000aa,confirmed,T01,2026-02-01 09:00:00,in order\n" +
		"00aa,confirmed,T01,2026-02-01 09:00:00,short\n" +
		"00000000000000aa,perhaps,T01,2026-02-01 09:00:00,word\n" +
		"00000000000000aa,confirmed,T01,01/02/2026,time\n" +
		"00000000000000aa,confirmed,T01\n"
	_, err := history.ImportDecisions(ctx, h, "d.csv", strings.NewReader(file))
	want := `d.csv:3: finding "00aa" is not 16 hexadecimal digits
d.csv:4: verdict "perhaps" is not one of confirmed, dismissed, undone
d.csv:5: at "01/02/2026" is not a time: write it as 2026-03-09 14:05:00
d.csv:6: 3 fields where the header has 5`
	if err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
	if kept, err := history.Decisions(ctx, h, ""); err != nil || len(kept) != 0 {
		t.Errorf("%d decisions kept, %v", len(kept), err)
	}
	_, err = history.ImportDecisions(ctx, h, "d.csv", strings.NewReader("finding,verdict\n"))
	if want := `d.csv:1: no column "decided_by": a file of decisions has the columns finding, verdict, decided_by, at, note`; err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
}
