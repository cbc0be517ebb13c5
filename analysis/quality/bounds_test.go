package quality

import (
	"context"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/stats"
	"plumbline/analysis/testkit"
)

// A job's outcome counts once in every group that its tasks fall in, and is left out only where none falls in any.
// Source: definitions, Compare.
func TestJobWithAGroupedAndAnUngroupedTask(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": "shop,job_no,opened_at\nalder,1,2026-01-05 08:00\nalder,2,2026-01-06 08:00",
		"calibrations": `shop,job_no,system,started_at,bay
			alder,1,front_camera,2026-01-05 09:00,7
			alder,1,front_radar,2026-01-05 10:00,
			alder,1,lidar,2026-01-05 11:00,7
			alder,2,front_camera,2026-01-06 09:00,`,
		"scans": `shop,job_no,scan_no,stage,scanned_at
			alder,1,1,pre,2026-01-05 08:30
			alder,1,2,post,2026-01-05 12:00
			alder,2,1,pre,2026-01-06 08:30
			alder,2,2,post,2026-01-06 12:00`,
	})
	c, err := Compare(context.Background(), h, "bay", PostScanFault, Filter{})
	if err != nil || len(c.Groups) != 1 || c.Groups[0].N != 1 || c.LeftOut != 1 || c.Pooled.N != 1 {
		t.Errorf("%+v, %v", c, err)
	}
}

// With two front cameras a job counts once, in the stratum of the method of the task that began first.
// Source: definitions, Glass source (an outcome counted per job).
func TestTwoCamerasInGlassByMethod(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs":  "shop,job_no,opened_at\nalder,1,2026-01-05 08:00\nalder,2,2026-01-06 08:00",
		"glass": "shop,job_no,source\nalder,1,oee\nalder,2,oem",
		"calibrations": `shop,job_no,position,started_at,method
			alder,1,left,2026-01-05 10:00,static
			alder,1,right,2026-01-05 09:00,dynamic
			alder,2,,2026-01-06 09:00,dynamic`,
		"scans": `shop,job_no,scan_no,stage,scanned_at
			alder,1,1,pre,2026-01-05 08:30
			alder,1,2,post,2026-01-05 12:00
			alder,2,1,pre,2026-01-06 08:30
			alder,2,2,post,2026-01-06 12:00`,
	})
	rows, err := Glass(context.Background(), h, []string{"method"}, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, row := range rows {
		for _, layer := range row.Strata {
			if row.Source == "oee" {
				got = append(got, fmt.Sprint(row.Outcome, " ", row.N, " ", layer.Name, " ", layer.Source.N, " ", layer.Reference.N))
			}
		}
	}
	want := []string{"not_first_pass 2 dynamic 1 1", "not_first_pass 2 static 1 0", "post_scan_fault 1 dynamic 1 1"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// Ten units on either side and five events in all are enough for a verdict, one less is not.
// Source: definitions, Glass source (verdicts).
func TestGlassVerdictAtItsBounds(t *testing.T) {
	for _, c := range []struct {
		n, count, referenceN, referenceCount int64
		want                                 Verdict
	}{
		{10, 2, 10, 3, NotShown}, {9, 2, 10, 3, TooLittle}, {10, 2, 9, 3, TooLittle}, {10, 2, 10, 2, TooLittle}, {10, 5, 10, 0, NotShown},
	} {
		row := GlassRow{N: c.n, Count: c.count, ReferenceN: c.referenceN, ReferenceCount: c.referenceCount, Strata: []Stratum{
			{Source: stats.Proportion{Count: 1, N: 2}, Reference: stats.Proportion{Count: 1, N: 2}}}}
		if got := row.verdict(); got != c.want {
			t.Errorf("%+v is %s", c, got)
		}
	}
}

// A clear shift sets the limits by what was before it only where that is at least ten readings; an earlier one, or one that
// is not clear, leaves all of them.
func TestDriftLimitsOfAnEarlyShift(t *testing.T) {
	for _, c := range []struct {
		shift stats.Shift
		want  int
	}{
		{stats.Shift{At: 9, P: 0.001}, 0}, {stats.Shift{At: 10, P: 0.001}, 10}, {stats.Shift{At: 10, P: 0.05}, 0},
		{stats.Shift{At: 10, P: 0.0499}, 10},
	} {
		if got := baseline(c.shift); got != c.want {
			t.Errorf("%+v: %d first readings, expected %d", c.shift, got, c.want)
		}
	}
	// Nine readings at one level and twenty at another: the limits are those of all, so the early ones lie within them.
	early := driftRow{Unit: "mm"}
	for i := range 29 {
		level := 0.5
		if i < 9 {
			level = -0.5
		}
		early.Deviations, early.Days = append(early.Deviations, level), append(early.Days, float64(20000+i))
	}
	d, err := early.drift()
	if err != nil || d.BeforeN != 9 || d.P >= 0.05 {
		t.Fatalf("%+v, %v", d, err)
	}
	if all := meanOf(early.Deviations); !near(d.Center, all, 1e-12) {
		t.Errorf("the centre is %v, of all readings %v", d.Center, all)
	}
}

// Of groups whose first points have equal p the larger stands first, and of equal ones the first by name.
func TestOnsetsOfEqualP(t *testing.T) {
	sequenceOf := func(name string, jobs int) search {
		s := search{sequence: sequence{group: name}}
		for i := range jobs {
			p := stats.Proportion{N: 1}
			if i >= 10 {
				p.Count = 1
			}
			s.sequence.jobs, s.sequence.days = append(s.sequence.jobs, p), append(s.sequence.days, day(float64(20000+i)))
			s.sequence.all = sum(s.sequence.all, p)
		}
		s.first = stats.Change{At: 10, P: 0.001, Defined: true}
		s.told = []stats.Change{s.first}
		return s
	}
	table := OnsetTable{By: "bay"}
	if err := table.fill([]search{sequenceOf("a", 20), sequenceOf("b", 30), sequenceOf("c", 20)}); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, onset := range table.Onsets {
		got = append(got, onset.Group)
	}
	if diff := cmp.Diff([]string{"b", "a", "c"}, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// Where every job failed there is nothing to compare their comebacks with: no p, and no base.
func TestFailuresWhereEveryJobFailed(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": `shop,job_no,opened_at,closed_at,reason,comeback_of
			alder,1,2026-01-05 08:00,2026-01-05 17:00,camera_removed,
			alder,2,2026-01-06 08:00,2026-01-06 17:00,warning_light,1
			alder,3,2026-06-01 08:00,,other,`,
		"calibrations": `shop,job_no,attempt_no,started_at,outcome,failure_code
			alder,1,1,2026-01-05 09:00,failed,E1
			alder,1,2,2026-01-05 09:40,completed,
			alder,2,1,2026-01-06 09:00,failed,E1
			alder,3,1,2026-06-01 09:00,failed,E2`,
	})
	pattern, err := Failures(context.Background(), h, "code", Filter{})
	if err != nil || len(pattern.Failures) != 2 || pattern.Base != (stats.Proportion{}) {
		t.Fatalf("%+v, %v", pattern, err)
	}
	first := pattern.Failures[0]
	if first.Matured != 2 || first.CameBack != 1 || first.BackP != nil || *first.BackShare != 0.5 {
		t.Errorf("%+v", first)
	}
	if last := pattern.Failures[1]; last.Matured != 0 || last.BackShare != nil || last.BackP != nil {
		t.Errorf("%+v", last)
	}
}
