package quality

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
	"plumbline/analysis/testkit"
)

// pairsOf makes as many tasks of two attempts as asked for, the first of them failed, in an order of time.
type pairsOf struct {
	jobs, calibrations strings.Builder
	n                  int
}

func (p *pairsOf) add(times int, before, after, outcome string) {
	for range times {
		p.n++
		day := fmt.Sprintf("2026-%02d-%02d", 1+p.n/28, 1+p.n%28)
		fmt.Fprintf(&p.jobs, "alder,%d,%s 08:00\n", p.n, day)
		fmt.Fprintf(&p.calibrations, "alder,%d,1,%s 09:00,failed,%s\nalder,%d,2,%s 10:00,%s,%s\n",
			p.n, day, before, p.n, day, outcome, after)
	}
}

func (p *pairsOf) history(t *testing.T) *history.History {
	return testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,opened_at\n" + p.jobs.String(),
		"calibrations": "shop,job_no,attempt_no,started_at,outcome,target\n" + p.calibrations.String(),
	})
}

// changeOf gives the row of one thing.
func changeOf(t *testing.T, changes []Change, what string) Change {
	t.Helper()
	for _, change := range changes {
		if change.What == what {
			return change
		}
	}
	t.Fatalf("%s did not change", what)
	return Change{}
}

// The table is Fisher's tea tasting, 3 of 4 against 1 of 4: two-sided p 0.4857 (R 4.2.2, fisher.test; item 07 of the
// reference values).
func TestChangeAgainstFishersTeaTasting(t *testing.T) {
	var pairs pairsOf
	pairs.add(3, "board1", "board2", "completed")
	pairs.add(1, "board1", "", "failed")
	pairs.add(1, "board1", "board1", "completed")
	pairs.add(2, "board3", "board3", "failed")
	pairs.add(1, "", "", "aborted") // two missing values are the same value
	changes, err := Changes(context.Background(), pairs.history(t), "", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	got := changeOf(t, changes, "target")
	if got.N != 4 || got.Completed != 3 || got.NotHelped != 1 || got.UnchangedN != 4 || got.UnchangedCompleted != 1 {
		t.Errorf("got %+v", got)
	}
	if !near(got.P, 0.4857142857, 1e-9) {
		t.Errorf("p %v", got.P)
	}
	one, two := "board1", "board2"
	want := []ChangeValue{{Before: &one, After: &two, N: 3, Completed: 3}, {Before: &one, N: 1}}
	if diff := cmp.Diff(want, got.Values); diff != "" {
		t.Errorf("values -want +got\n%s", diff)
	}
	nothing := changeOf(t, changes, NothingChanged)
	if nothing.N != 4 || nothing.Completed != 1 || nothing.UnchangedN != 4 || nothing.UnchangedCompleted != 3 {
		t.Errorf("nothing changed: %+v", nothing)
	}
}

// Newcombe (1998) Stat. Med. 17:857-872, table I, Wilson's interval of 0 of 20: 0 to .1611.
func TestChangeThatNeverHelpedHasNewcombesInterval(t *testing.T) {
	var pairs pairsOf
	pairs.add(20, "board1", "board2", "failed")
	changes, err := Changes(context.Background(), pairs.history(t), "front_camera", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	got := changeOf(t, changes, "target")
	if got.Low != 0 || fmt.Sprintf("%.4f", got.High) != "0.1611" || got.NotHelped != 20 || got.UnchangedShare != nil {
		t.Errorf("got %+v", got)
	}
	if none, err := Changes(context.Background(), pairs.history(t), "lidar", Filter{}); err != nil || len(none) != 0 {
		t.Errorf("changes on a system without attempts: %+v, %v", none, err)
	}
}

func TestChangedQuantityAtItsBoundary(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": "shop,job_no,opened_at\nalder,1,2026-01-05 08:00",
		"calibrations": `shop,job_no,attempt_no,started_at,outcome
			alder,1,1,2026-01-05 09:00,failed
			alder,1,2,2026-01-05 10:00,completed`,
		// tolerance 10 wide: a tenth is 1
		"measurements": `shop,job_no,system,attempt_no,quantity,value,spec_low,spec_high
			alder,1,front_camera,1,target_distance,1494.9,1495,1505
			alder,1,front_camera,2,target_distance,1495,1495,1505
			alder,1,front_camera,1,target_height,1000.1,995,1005
			alder,1,front_camera,2,target_height,1001.1,995,1005
			alder,1,front_camera,1,target_offset,0,-5,5
			alder,1,front_camera,2,target_offset,-1.1,-5,5
			alder,1,front_camera,1,ride_height_lf,600,,
			alder,1,front_camera,2,ride_height_lf,700,,`,
	})
	pairs, err := ChangePairs(context.Background(), h, "", "", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, p := range pairs {
		got = append(got, fmt.Sprint(p.What, " ", *p.Before, " ", *p.After, " ", *p.ValueBefore, " ", *p.ValueAfter, " ",
			p.NextOutcome))
	}
	want := []string{"target_distance low inside 1494.9 1495 completed", "target_offset inside inside 0 -1.1 completed"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	changes, err := Changes(context.Background(), h, "", Filter{})
	if err != nil || len(changes) != 2 {
		t.Fatalf("%+v, %v", changes, err)
	}
	if into := changeOf(t, changes, "target_distance").IntoTolerance(); into != (stats.Proportion{Count: 1, N: 1}) {
		t.Errorf("target distance into tolerance: %+v", into)
	}
	if into := changeOf(t, changes, "target_offset").IntoTolerance(); into.N != 0 {
		t.Errorf("target offset into tolerance: %+v", into)
	}
}

// Changed and unchanged together are the pairs that could be compared, and for fields those are all pairs.
func TestChangesReconcile(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	changes, err := Changes(ctx, h, "", Filter{})
	if err != nil {
		t.Fatal(err)
	}
	all := changeOf(t, changes, NothingChanged)
	for _, field := range []string{"method", "technician", "bay", "equipment", "target", "software_version"} {
		change := changeOf(t, changes, field)
		if change.N+change.UnchangedN != all.N+all.UnchangedN {
			t.Errorf("%s: %d + %d pairs, in all %d", field, change.N, change.UnchangedN, all.N+all.UnchangedN)
		}
		pairs, err := ChangePairs(ctx, h, field, "", Filter{})
		if err != nil || int64(len(pairs)) != change.N {
			t.Errorf("%s: %d single pairs, %d counted, %v", field, len(pairs), change.N, err)
		}
	}
}
