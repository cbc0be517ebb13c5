package quality

import (
	"context"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/testkit"
)

// failing is three ways to write one failure, another, one without a reason, and a job that came back.
var failing = testkit.Records{
	"jobs": `shop,job_no,opened_at,closed_at,reason,comeback_of
		alder,1,2026-01-05 08:00,2026-01-05 17:00,camera_removed,
		alder,2,2026-01-06 08:00,2026-01-06 17:00,warning_light,1
		alder,3,2026-01-07 08:00,2026-01-07 17:00,camera_removed,
		alder,4,2026-06-01 08:00,,other,`,
	"calibrations": `shop,job_no,attempt_no,started_at,ended_at,outcome,failure_code,failure_text
		alder,1,1,2026-01-05 09:00,2026-01-05 09:30,failed,e112,"Target at 1512.5 mm, out of range!"
		alder,1,2,2026-01-05 09:40,2026-01-05 10:00,failed,E112,target at 1488 mm - out of range
		alder,1,3,2026-01-05 11:00,2026-01-05 11:20,completed,,
		alder,2,1,2026-01-06 09:00,,aborted,E112 ,TARGET  AT -3 MM OUT OF RANGE
		alder,2,2,2026-01-06 09:10,2026-01-06 09:20,completed,,
		alder,3,1,2026-01-07 09:00,2026-01-07 09:30,failed,E160,rain
		alder,3,2,2026-01-07 09:20,2026-01-07 09:30,failed,,---
		alder,3,3,2026-01-08 09:30,2026-01-08 09:50,completed,,
		alder,4,1,2026-06-01 09:00,2026-06-01 09:10,completed,,`,
}

func TestFailuresGroupWhatIsWrittenInManyWays(t *testing.T) {
	h := testkit.History(t, failing)
	for by, want := range map[string][]string{
		"code": {
			"E112 TARGET  AT -3 MM OUT OF RANGE 2 spellings, 3 attempts in 2 jobs, 3 retried 2 completed, 2 matured 1 back",
			"E160 rain 1 spellings, 1 attempts in 1 jobs, 1 retried 0 completed, 1 matured 0 back",
			"none --- 0 spellings, 1 attempts in 1 jobs, 1 retried 1 completed, 1 matured 0 back",
		},
		"text": {
			"TARGET  AT -3 MM OUT OF RANGE E112 3 spellings, 3 attempts in 2 jobs, 3 retried 2 completed, 2 matured 1 back",
			"rain E160 1 spellings, 1 attempts in 1 jobs, 1 retried 0 completed, 1 matured 0 back",
			"none none 0 spellings, 1 attempts in 1 jobs, 1 retried 1 completed, 1 matured 0 back",
		},
	} {
		pattern, err := Failures(context.Background(), h, by, Filter{})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range pattern.Failures {
			got = append(got, fmt.Sprintf(
				"%s %s %d spellings, %d attempts in %d jobs, %d retried %d completed, %d matured %d back", orNone(f.Name),
				orNone(f.Usual), f.Spellings, f.N, f.Jobs, f.Retried, f.CompletedNext, f.Matured, f.CameBack))
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("by %s -want +got\n%s", by, diff)
		}
		if pattern.N != 5 || pattern.Failures[0].Share != 0.6 || pattern.Failures[1].Cumulative != 0.8 {
			t.Errorf("by %s: %d attempts, shares %v %v", by, pattern.N, pattern.Failures[0].Share,
				pattern.Failures[1].Cumulative)
		}
	}
}

// Figures are alike whatever they are, but a text with a figure is not one without.
func TestFailureTextsWithFigures(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": "shop,job_no,opened_at\nalder,1,2026-01-05 08:00",
		"calibrations": `shop,job_no,attempt_no,started_at,outcome,failure_text
			alder,1,1,2026-01-05 09:00,failed,zone 3
			alder,1,2,2026-01-05 09:10,failed,Zone: 41.5
			alder,1,3,2026-01-05 09:20,failed,zone`,
	})
	pattern, err := Failures(context.Background(), h, "text", Filter{})
	if err != nil || len(pattern.Failures) != 2 || pattern.Failures[0].N != 2 || *pattern.Failures[1].Name != "zone" {
		t.Errorf("%+v, %v", pattern.Failures, err)
	}
}

func orNone(text *string) string {
	if text == nil {
		return "none"
	}
	return *text
}

func TestFailureWaits(t *testing.T) {
	waits, err := FailureWaits(context.Background(), testkit.History(t, failing), Filter{})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, w := range waits {
		got = append(got, fmt.Sprint(w.Wait, ": ", w.N, " ", w.Completed, " ", w.WithoutEnd, " ", w.MedianMin))
	}
	want := []string{ // ten minutes after an end, and after a start that has no end
		"before the end: 1 0 0 -10", "under 15 min: 2 1 1 10", "1 to 4 h: 1 1 0 60", "a day or more: 1 1 0 1440",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// An attempt that was given a date alone has a weekday and no hour. 2026-01-05 was a Monday (ISO 8601).
func TestFailureClock(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": "shop,job_no,opened_at\nalder,1,2026-01-01 08:00",
		"calibrations": `shop,job_no,attempt_no,started_at,outcome
			alder,1,1,2026-01-05,failed
			alder,1,2,2026-01-05 00:30,failed
			alder,1,3,2026-01-11 23:59,completed`,
	})
	hours, weekdays, err := FailureClock(context.Background(), h, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, slot := range append(hours.Slots, weekdays.Slots...) {
		got = append(got, fmt.Sprint(slot.Name, " ", slot.Count, "/", slot.N))
	}
	if diff := cmp.Diff([]string{"00 1/1", "23 0/1", "Mon 2/2", "Sun 0/1"}, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if !weekdays.Test.Defined || weekdays.Test.DF != 1 || !near(weekdays.Test.Statistic, 3, 1e-12) {
		t.Errorf("test over weekdays: %+v", weekdays.Test) // 2x2 of 2,0 and 0,1: n (ad-bc)² / product of margins = 3
	}
}

// Every attempt that did not complete is in exactly one group, hour and weekday.
func TestFailuresReconcile(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	codes, err := Failures(ctx, h, "code", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	texts, err := Failures(ctx, h, "text", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	failed, err := Findings(ctx, h, Filter{Kinds: []string{"failed_calibration"}})
	if err != nil {
		t.Fatal(err)
	}
	_, weekdays, err := FailureClock(ctx, h, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	count := int64(0)
	for _, slot := range weekdays.Slots {
		count += slot.Count
	}
	if n := int64(len(failed)); codes.N != n || texts.N != n || count != n || n == 0 {
		t.Errorf("%d by code, %d by text, %d by weekday, %d findings", codes.N, texts.N, count, n)
	}
}
