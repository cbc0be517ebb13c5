package answer

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

func at(day int) *time.Time {
	moment := time.Date(2026, 9, day, 8, 0, 0, 0, time.UTC)
	return &moment
}

// Everyone has a list that begins a sheet, with the gravest first and of these the oldest; what names nobody comes last.
func TestEachPersonsListBeginsASheet(t *testing.T) {
	one, two := "T01", "T02"
	finding := func(id, severity string, day int, who *string) quality.Finding {
		return quality.Finding{Finding: id, Kind: "failed_calibration", Severity: severity, Shop: "birch", JobNo: id, At: at(day), Technician: who}
	}
	waiting := []Consequence{{Heading: "Look", Findings: []quality.Finding{finding("a", "medium", 1, &two), finding("b", "high", 9, &two), finding("c", "high", 3, &two),
		finding("d", "low", 2, nil), finding("e", "high", 4, &one)}}}
	about := About{Month: "2026-09"}
	about.Scope.AsOf = at(30)
	got := map[string][]string{}
	var order []string
	for _, e := range ByPerson(about, waiting, func(string, string, *string) string { return "" })[1:] {
		if !e.Apart {
			t.Errorf("the list of %s begins no sheet", e.Title)
		}
		order = append(order, e.Title)
		for i := range e.Table.Rows.Len {
			got[e.Title] = append(got[e.Title], e.Table.Rows.At(i)[7].(string))
		}
	}
	want := map[string][]string{"T01": {"e"}, "T02": {"c", "b", "a"}, "No person on record": {"d"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("lists (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"T01", "T02", "No person on record"}, order); diff != "" {
		t.Errorf("people (-want +got):\n%s", diff)
	}
	if row := personTable(about, byPerson(askedOf(waiting))).Rows.At(1); row[0].(exhibit.Cell).Link != "by-person.html#person-2" ||
		row[1] != int64(3) || row[2] != int64(2) || row[3] != int64(29) {
		t.Errorf("T02 waits as %v, expected 3, 2 of them high, the oldest of 29 days ago", row)
	}
}

func TestADecisionSaysWhoWhenAndWhy(t *testing.T) {
	verdict, who, why := "dismissed", "T04", "customer brought the wrong car"
	ruling := quality.Ruling{DecidedBy: &who, DecidedAt: at(12), DecisionNote: &why}
	if got := RulingWords(&verdict, ruling); got != "dismissed by T04 on 2026-09-12: customer brought the wrong car" {
		t.Errorf("it says %q", got)
	}
	if got := RulingWords(nil, quality.Ruling{}); got != "" {
		t.Errorf("an undecided finding says %q", got)
	}
}

func TestSignalsAreOfTheTrendsOwnPeriods(t *testing.T) {
	rate, center := 0.4, 0.1
	for period, want := range map[string]string{"2026-03": "nine months in a row above the centre", "2026-W12": "nine weeks in a row above the centre",
		"2026-Q1": "nine quarters in a row above the centre"} {
		points := []quality.TrendPoint{{Period: period, N: 9, Units: 9, Rate: &rate, Center: &center, Signals: []stats.Signal{stats.NineOneSide}}}
		if got := signalsOf(points, 0); got != want {
			t.Errorf("%s: %q, expected %q", period, got, want)
		}
	}
}
