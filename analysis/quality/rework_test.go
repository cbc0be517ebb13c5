package quality

import (
	"context"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/testkit"
)

func TestReworkCountsEachAttemptOnce(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": `shop,job_no,opened_at,closed_at,reason,comeback_of
			alder,1,2026-01-05 08:00,2026-01-05 17:00,camera_removed,
			alder,2,2026-02-02 08:00,2026-02-02 17:00,warning_light,1
			alder,3,2026-02-03 08:00,2026-02-03 17:00,camera_removed,`,
		"calibrations": `shop,job_no,attempt_no,method,started_at,ended_at,outcome,technician
			alder,1,1,static,2026-01-05 09:00,2026-01-05 09:30,failed,T01
			alder,1,2,static,2026-01-05 10:00,2026-01-05 10:45,completed,T01
			alder,1,3,dynamic,2026-01-05 11:00,2026-01-05 11:30,completed,T01
			alder,2,1,static,2026-02-02 09:00,2026-02-02 10:00,failed,T02
			alder,2,2,static,2026-02-02 10:00,2026-02-02 10:30,completed,T02
			alder,3,1,static,2026-02-03 09:00,2026-02-03 09:30,failed,T01
			alder,3,2,static,2026-02-03 10:00,,failed,T01
			alder,3,3,static,2026-02-03 11:00,2026-02-03 10:00,completed,`,
	})
	got, err := Rework(context.Background(), h, Filter{})
	want := []ReworkLine{
		{Month: "2026-01", Cause: RepeatCause, Attempts: 1, Hours: 0.75}, // the dynamic stage repeats nothing
		{Month: "2026-02", Cause: RepeatCause, Attempts: 2, WithoutEnd: 1},
		{Month: "2026-02", Cause: ComebackCause, Attempts: 2, Hours: 1.5}, // its second attempt is no repeat besides
	}
	if diff := cmp.Diff(want, got); diff != "" || err != nil {
		t.Errorf("-want +got\n%s%v", diff, err)
	}
	one, two := "alder/T01", "alder/T02"
	groups, err := ReworkBy(context.Background(), h, "technician", Filter{})
	wantGroups := []ReworkCause{
		{Group: &two, Cause: ComebackCause, Attempts: 2, Hours: 1.5},
		{Group: &one, Cause: RepeatCause, Attempts: 2, WithoutEnd: 1, Hours: 0.75},
		{Group: nil, Cause: RepeatCause, Attempts: 1}, // ends before it starts: no hours, but not without end
	}
	if diff := cmp.Diff(wantGroups, groups); diff != "" || err != nil {
		t.Errorf("-want +got\n%s%v", diff, err)
	}
}

// Each hour leads to its attempt, and that to the work that it goes back to: of a repeat the attempt before, of a comeback
// the last attempt on the same system in the earlier job.
func TestReworkGoesBackToWork(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": `shop,job_no,vin,opened_at,closed_at,reason,comeback_of
			alder,1,1M8GDM9AXKP042788,2026-01-05 08:00,2026-01-05 17:00,windshield_replacement,
			alder,2,,2026-02-02 08:00,2026-02-02 17:00,warning_light,1`,
		"glass": `shop,job_no,position,source
			alder,1,windshield,oee
			alder,2,windshield,oem`,
		"calibrations": `shop,job_no,system,position,attempt_no,started_at,ended_at,outcome,failure_code,equipment
			alder,1,front_camera,,1,2026-01-05 09:00,2026-01-05 09:30,failed,e112,stand 1
			alder,1,front_camera,,2,2026-01-05 10:00,2026-01-05 10:45,completed,,stand 2
			alder,1,rear_corner_radar,left,1,2026-01-05 11:00,2026-01-05 11:30,completed,,stand 1
			alder,1,rear_corner_radar,right,1,2026-01-05 12:00,2026-01-05 12:30,completed,,stand 3
			alder,2,front_camera,,1,2026-02-02 09:00,2026-02-02 10:00,completed,,stand 1
			alder,2,rear_corner_radar,left,1,2026-02-02 11:00,,completed,,stand 1
			alder,2,front_radar,,1,2026-02-02 12:00,2026-02-02 12:15,completed,,stand 1`,
	})
	got, err := ReworkAttempts(context.Background(), h, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	type origin struct {
		attempt                   string
		hours                     float64
		code, stand, source, work string
	}
	var origins []origin
	for _, a := range got {
		o := origin{attempt: a.JobNo + " " + a.System, hours: -1, code: orEmpty(a.FailureCode), stand: orEmpty(a.Stand), source: orEmpty(a.Source)}
		if a.Hours != nil {
			o.hours = *a.Hours
		}
		if a.PriorAttemptNo != nil {
			o.work = fmt.Sprintf("%s/%s %d", *a.PriorShop, *a.PriorJobNo, *a.PriorAttemptNo)
		}
		origins = append(origins, o)
	}
	want := []origin{
		{"2 front_camera", 1, "", "alder/stand 2", "oee", "alder/1 2"},
		{"1 front_camera", 0.75, "E112", "alder/stand 1", "oee", "alder/1 1"},
		{"2 front_radar", 0.25, "", "", "", ""}, // the earlier job has no such task
		{"2 rear_corner_radar", -1, "", "alder/stand 1", "", "alder/1 1"},
	}
	if diff := cmp.Diff(want, origins, cmp.AllowUnexported(origin{})); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// The sums over any grouping are the sums over months.
func TestReworkReconciles(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	lines, err := Rework(ctx, h, Filter{})
	if err != nil || len(lines) == 0 {
		t.Fatalf("%d lines, %v", len(lines), err)
	}
	var want ReworkLine
	for _, line := range lines {
		want.Attempts, want.WithoutEnd, want.Hours = want.Attempts+line.Attempts, want.WithoutEnd+line.WithoutEnd,
			want.Hours+line.Hours
	}
	for _, by := range ReworkGroupings {
		groups, err := ReworkBy(ctx, h, by, Filter{})
		if err != nil {
			t.Fatal(err)
		}
		var got ReworkLine
		for _, group := range groups {
			got.Attempts, got.WithoutEnd, got.Hours = got.Attempts+group.Attempts, got.WithoutEnd+group.WithoutEnd,
				got.Hours+group.Hours
		}
		if got.Attempts != want.Attempts || got.WithoutEnd != want.WithoutEnd || !near(got.Hours, want.Hours, 1e-9) {
			t.Errorf("by %s: %+v, by month: %+v", by, got, want)
		}
	}
}

// near tells whether two figures agree but for rounding.
func near(got, want, relative float64) bool {
	difference := got - want
	return difference <= relative*max(1, want) && -difference <= relative*max(1, want)
}
