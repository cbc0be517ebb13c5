package quality

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"plumbline/analysis/testkit"
)

// One task of 3,000 attempts, one a minute, every tenth completed.
func TestThousandsOfAttemptsInOneTask(t *testing.T) {
	const attempts = 3000
	var calibrations strings.Builder
	start := testkit.Time(t, "2025-12-30 20:00") // over two midnights and a new year
	for i := range attempts {
		outcome := "failed"
		if i%10 == 9 {
			outcome = "completed"
		}
		moment := start.Add(time.Duration(i) * time.Minute)
		fmt.Fprintf(&calibrations, "alder,1,%d,%s,%s,%s,stand1,board%d\n", i+1, moment.Format(time.DateTime),
			moment.Add(30*time.Second).Format(time.DateTime), outcome, i%2)
	}
	ctx := context.Background()
	h := testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,opened_at\nalder,1,2025-12-30 08:00\n",
		"calibrations": "shop,job_no,attempt_no,started_at,ended_at,outcome,equipment,target\n" + calibrations.String(),
	})
	changes, err := Changes(ctx, h, "", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	if got := changeOf(t, changes, "target"); got.N != attempts*9/10 || got.Completed != attempts/10 || got.UnchangedN != 0 {
		t.Errorf("changes: %+v", got)
	}
	lines, err := Rework(ctx, h, Filter{})
	if err != nil || len(lines) != 2 || lines[0].Attempts+lines[1].Attempts != attempts-1 ||
		!near(lines[0].Hours+lines[1].Hours, (attempts-1)*30.0/3600, 1e-9) {
		t.Errorf("rework: %+v, %v", lines, err)
	}
	story, err := Trace(ctx, h, "alder/1")
	if err != nil || len(filtered(story.Events, func(e StoryEvent) bool { return e.Kind == AttemptEvent })) != attempts {
		t.Errorf("%d events, %v", len(story.Events), err)
	}
	waits, err := FailureWaits(ctx, h, Filter{})
	if err != nil || len(waits) != 1 || waits[0].N != attempts*9/10 || waits[0].MedianMin != 0.5 {
		t.Errorf("waits: %+v, %v", waits, err)
	}
}

// A day on which the clocks go back: the second attempt starts after the first has ended and is written earlier. The shop's
// wall clock is kept, so the wait is negative, no hours are lost or made, and nothing fails.
func TestClocksGoingBackAndJobsOverMidnight(t *testing.T) {
	ctx := context.Background()
	h := testkit.History(t, testkit.Records{
		"jobs": `shop,job_no,opened_at,closed_at
			alder,1,2026-10-25 00:30,2026-10-25 03:00
			alder,2,2025-12-31 22:00,2026-01-01 01:00`,
		"calibrations": `shop,job_no,attempt_no,started_at,ended_at,outcome
			alder,1,1,2026-10-25 02:10,2026-10-25 02:50,failed
			alder,1,2,2026-10-25 02:20,2026-10-25 02:05,completed
			alder,2,1,2025-12-31 23:50,2026-01-01 00:10,failed
			alder,2,2,2026-01-01 00:20,2026-01-01 00:40,completed`,
	})
	lines, err := Rework(ctx, h, Filter{})
	if err != nil || len(lines) != 2 || lines[0].Month != "2026-01" || !near(lines[0].Hours, 1.0/3, 1e-12) ||
		lines[1].Attempts != 1 || lines[1].Hours != 0 || lines[1].WithoutEnd != 0 {
		t.Errorf("rework: %+v, %v", lines, err)
	}
	waits, err := FailureWaits(ctx, h, Filter{})
	if err != nil || len(waits) != 2 || waits[0].MedianMin != -30 || waits[1].MedianMin != 10 {
		t.Errorf("waits: %+v, %v", waits, err)
	}
	story, err := Trace(ctx, h, "alder/2")
	if err != nil || story.Events[1].At.Year() != 2025 || story.Events[len(story.Events)-1].At.Year() != 2026 {
		t.Errorf("%+v, %v", story.Events, err)
	}
}

// A stand's name is one shop's own: stand1 of two shops is two stands, in every measure; a board's is not.
func TestAStandUsedInTwoShops(t *testing.T) {
	var jobs, calibrations, measurements strings.Builder
	for i := range 40 {
		shop := []string{"alder", "birch"}[i%2]
		fmt.Fprintf(&jobs, "%s,%d,%s 08:00\n", shop, i, dayOf(i).Format("2006-01-02"))
		fmt.Fprintf(&calibrations, "%s,%d,%s 09:00,%s,stand1,board1\n", shop, i, dayOf(i).Format("2006-01-02"),
			[]string{"completed", "failed"}[i/20])
		fmt.Fprintf(&measurements, "%s,%d,front_camera,1,pitch,%d,deg,-90,90\n", shop, i, i)
	}
	ctx := context.Background()
	h := testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,opened_at\n" + jobs.String(),
		"calibrations": "shop,job_no,started_at,outcome,equipment,target\n" + calibrations.String(),
		"measurements": "shop,job_no,system,attempt_no,quantity,value,unit,spec_low,spec_high\n" + measurements.String(),
	})
	for by, want := range map[string]string{"equipment": "alder/stand1 20, birch/stand1 20", "target": "board1 40"} {
		tables, err := Onsets(ctx, h, Filter{}, by)
		if err != nil {
			t.Fatal(err)
		}
		var onsets []string
		for _, onset := range tables[0].Onsets {
			onsets = append(onsets, fmt.Sprint(onset.Group, " ", onset.N))
			if !onset.IsChange() || onset.BeforeCount != 0 || onset.AfterCount != onset.AfterN {
				t.Errorf("%+v", onset)
			}
		}
		drifts, err := Drifts(ctx, h, by, Filter{})
		if err != nil {
			t.Fatal(err)
		}
		var series []string
		for _, d := range drifts {
			series = append(series, fmt.Sprint(d.Group, " ", d.N))
		}
		if strings.Join(onsets, ", ") != want || strings.Join(series, ", ") != want {
			t.Errorf("onsets %v, drifts %v, want %s", onsets, series, want)
		}
	}
}

// Nothing in, nothing out, and no error.
func TestMeasuresOfAnEmptyHistory(t *testing.T) {
	ctx, h := context.Background(), testkit.History(t, nil)
	rework, err1 := Rework(ctx, h, Filter{})
	changes, err2 := Changes(ctx, h, "", Filter{})
	onsets, err3 := Onsets(ctx, h, Filter{}, "technician")
	drifts, err4 := Drifts(ctx, h, "target", Filter{})
	digits, err5 := Digits(ctx, h, Filter{})
	failures, err6 := Failures(ctx, h, "code", Filter{})
	hours, _, err7 := FailureClock(ctx, h, Filter{})
	spellings, err8 := Spellings(ctx, h)
	for i, err := range []error{err1, err2, err3, err4, err5, err6, err7, err8} {
		if err != nil {
			t.Errorf("question %d: %v", i+1, err)
		}
	}
	if rows := len(rework) + len(changes) + len(onsets[0].Onsets) + len(drifts) + len(digits) + len(failures.Failures) +
		len(hours.Slots) + len(spellings); rows != 0 {
		t.Errorf("%d rows from an empty history", rows)
	}
}
