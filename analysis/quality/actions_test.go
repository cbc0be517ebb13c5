package quality

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// A stand of alder has a job a day of 2024 from day 0; so has another one, and one in birch. Each fails on those of ten days
// that its rate says.
type standDays struct {
	shop, stand string
	rate        func(day int) int // of ten
	days        int
}

// actionHistory has the stands, and the actions and checks given.
func actionHistory(t *testing.T, stands []standDays, actions, checks string) *history.History {
	var jobs, calibrations strings.Builder
	for s, stand := range stands {
		for day := range stand.days {
			outcome := "completed"
			if day*7%10 < stand.rate(day) { // 7 and 10 have no common divisor: ten days meet all remainders
				outcome = "failed"
			}
			moment := dayOf(day).Format("2006-01-02")
			fmt.Fprintf(&jobs, "%s,%d-%d,%s 08:00,Mira,Solo\n", stand.shop, s, day, moment)
			fmt.Fprintf(&calibrations, "%s,%d-%d,front_camera,1,%s 09:00,%s,%s\n", stand.shop, s, day, moment, outcome, stand.stand)
		}
	}
	records := testkit.Records{
		"jobs":         "shop,job_no,opened_at,make,model\n" + jobs.String(),
		"calibrations": "shop,job_no,system,attempt_no,started_at,outcome,equipment\n" + calibrations.String(),
	}
	if actions != "" {
		records["actions"] = "shop,subject_kind,subject,taken_at,what,by\n" + actions
	}
	if checks != "" {
		records["equipment_checks"] = "shop,equipment,checked_at,outcome,note\n" + checks
	}
	return testkit.History(t, records)
}

func always(rate int) func(int) int { return func(int) int { return rate } }

// from has one rate up to a day, and another from then on.
func from(day, before, after int) func(int) int {
	return func(d int) int {
		if d < day {
			return before
		}
		return after
	}
}

func actionsOf(t *testing.T, h *history.History) []Action {
	t.Helper()
	actions, err := Actions(context.Background(), h, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	return actions
}

// 2024-04-10 is day 100: 100 tasks before, 100 from then on.
const squared = "alder,equipment,s1,2024-04-10 00:00,stand squared,T1\n"

func TestActionVerdicts(t *testing.T) {
	for name, c := range map[string]struct {
		stands []standDays
		want   ActionVerdict
	}{
		"better": {[]standDays{{"alder", "s1", from(100, 5, 1), 200}, {"alder", "s2", always(3), 200}}, Better},
		"worse":  {[]standDays{{"alder", "s1", from(100, 1, 5), 200}, {"alder", "s2", always(3), 200}}, Worse},
		"the others fell too": {[]standDays{{"alder", "s1", from(100, 5, 1), 200}, {"alder", "s2", from(100, 5, 1), 200}},
			WithTheOthers},
		"nobody else":      {[]standDays{{"alder", "s1", from(100, 5, 1), 200}, {"birch", "s1", always(3), 200}}, Alone},
		"nine tasks after": {[]standDays{{"alder", "s1", from(100, 5, 1), 109}, {"alder", "s2", always(3), 200}}, TooEarly},
		"not long enough":  {[]standDays{{"alder", "s1", always(1), 130}, {"alder", "s2", always(1), 130}}, TooEarly},
		"no effect":        {[]standDays{{"alder", "s1", always(5), 260}, {"alder", "s2", always(5), 260}}, NoEffectShown},
	} {
		got := actionsOf(t, actionHistory(t, c.stands, squared, ""))
		if len(got) != 1 || got[0].Verdict != c.want {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// The figures of a better one, by hand: 50 of 100 before, 10 of 100 after; the others 30 of 100 and 30 of 100. One stratum, so
// that the odds ratio is (10 x 50)/(90 x 50) = 1/9 and chi-squared (|10-30| - 1/2)²/V, V = 100 100 60 140/(200² 199).
func TestActionFigures(t *testing.T) {
	got := actionsOf(t, actionHistory(t, []standDays{{"alder", "s1", from(100, 5, 1), 200}, {"alder", "s2", always(3), 200}}, squared, ""))[0]
	if got.BeforeN != 100 || got.BeforeCount != 50 || got.AfterN != 100 || got.AfterCount != 10 || got.OthersBeforeN != 100 ||
		got.OthersBeforeCount != 30 || got.OthersAfterN != 100 || got.OthersAfterCount != 30 {
		t.Errorf("%+v", got)
	}
	variance := 100.0 * 100 * 60 * 140 / (200 * 200 * 199)
	p := math.Erfc(19.5 / math.Sqrt(variance) / math.Sqrt2)
	if !near(*got.Difference, -0.4, 1e-12) || !near(*got.LikeOddsRatio, 1.0/9, 1e-12) || math.Abs(*got.LikeP/p-1) > 1e-9 ||
		*got.LikeQ != *got.LikeP || *got.OthersDifference != 0 {
		t.Errorf("difference %v, odds ratio %v, p %v (want %v)", *got.Difference, *got.LikeOddsRatio, *got.LikeP, p)
	}
	// Newcombe's interval of the others is even about 0, so the width less the others is the root of both squares.
	if want := -0.4 - math.Hypot(-0.4-*got.DiffLow, *got.OthersHigh); !near(*got.LessLow, want, 1e-12) || *got.LessHigh >= 0 {
		t.Errorf("less the others %v to %v, want from %v", *got.LessLow, *got.LessHigh, want)
	}
}

// Spans end at 180 days, at the next action and the one before; what follows within 14 days is one row.
func TestActionSpans(t *testing.T) {
	stands := []standDays{{"alder", "s1", always(3), 500}}
	one := actionsOf(t, actionHistory(t, stands, "alder,equipment,s1,2024-09-07 00:00,squared,T1\n", ""))[0] // day 250
	if one.BeforeN != 180 || one.AfterN != 180 {                                                             // 00:00 to 00:00, tasks at 09:00
		t.Errorf("180 days: %d before, %d after", one.BeforeN, one.AfterN)
	}
	rows := actionsOf(t, actionHistory(t, stands, `alder,equipment,s1,2024-09-07 00:00,squared,T1
		alder,equipment,s1,2024-09-21 00:00,squared again,T2
		alder,equipment,s1,2024-10-05 00:01,new target,
		`, ""))
	if len(rows) != 2 || rows[0].What != "squared; squared again" || *rows[0].By != "T1; T2" || rows[0].BeforeN != 180 ||
		rows[0].AfterN != 14 || rows[1].BeforeN != 14 || rows[1].AfterN != 180 || rows[1].By != nil {
		t.Errorf("%+v", rows)
	}
}

// A check that passed after one that failed is an action on the stand; one that passed after none, or after one that passed,
// is none.
func TestChecksAreActions(t *testing.T) {
	rows := actionsOf(t, actionHistory(t, []standDays{{"alder", "s1", always(3), 200}}, "", `alder,s1,2024-01-05 07:00,passed,
		alder,s1,2024-02-05 07:00,failed,
		alder,s1,2024-03-05 07:00,passed,leveled
		alder,s1,2024-04-05 07:00,passed,
		alder,s9,2024-02-05 07:00,failed,
		alder,s9,2024-03-05 07:00,passed,
		`))
	if len(rows) != 1 || rows[0].SubjectKind != "equipment" || *rows[0].Subject != "s1" || rows[0].What != "check passed after failing: leveled" {
		t.Errorf("%+v", rows)
	}
}

// An action on the shop is judged by all of its tasks and held against the other shops'.
func TestActionOnAShop(t *testing.T) {
	got := actionsOf(t, actionHistory(t, []standDays{{"alder", "s1", from(100, 5, 1), 200}, {"alder", "s2", from(100, 5, 1), 200},
		{"birch", "s1", always(3), 200}}, "alder,shop,,2024-04-10 00:00,two days' training,T1\n", ""))[0]
	if got.BeforeN != 200 || got.OthersBeforeN != 100 || got.OthersAfterCount != 30 || got.Verdict != Better || got.Subject != nil {
		t.Errorf("%+v", got)
	}
}
