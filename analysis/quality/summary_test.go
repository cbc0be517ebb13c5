package quality

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/stats"
	"plumbline/analysis/testkit"
)

// A shop's row holds its own jobs, tasks, gaps and work done again, counted by hand; a job without an insurer is in no
// insurer's row.
func TestSummariesCountEachGroup(t *testing.T) {
	h := testkit.History(t, testkit.Records{
		"jobs": `shop,job_no,opened_at,closed_at,reason,insurer
			alder,1,2026-01-05 08:00,2026-01-05 17:00,camera_removed,Oak Mutual
			alder,2,2026-01-06 08:00,2026-01-06 17:00,camera_removed,oak mutual
			birch,3,2026-01-07 08:00,2026-01-07 17:00,camera_removed,`,
		"calibrations": `shop,job_no,attempt_no,started_at,ended_at,outcome
			alder,1,1,2026-01-05 09:00,2026-01-05 09:30,failed
			alder,1,2,2026-01-05 10:00,2026-01-05 10:30,completed
			alder,2,1,2026-01-06 10:00,2026-01-06 10:30,completed
			birch,3,1,2026-01-07 10:00,,completed`,
		"scans": `shop,job_no,scan_no,stage,scanned_at
			birch,3,1,pre,2026-01-07 08:30
			birch,3,2,post,2026-01-07 11:00`,
		"road_tests": `shop,job_no,test_no,started_at,outcome
			birch,3,1,2026-01-07 10:50,passed`,
	})
	for by, want := range map[string][]string{
		"shop":    {"alder: jobs 2, not first pass 1 of 2, gaps 2 of 2, again 1 of 3, 0.5 h", "birch: jobs 1, not first pass 0 of 1, gaps 0 of 1, again 0 of 1, 0 h"},
		"insurer": {"Oak Mutual: jobs 2, not first pass 1 of 2, gaps 2 of 2, again 1 of 3, 0.5 h"},
	} {
		summaries, err := Summaries(context.Background(), h, by, Filter{})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, s := range summaries {
			got = append(got, fmt.Sprintf("%s: jobs %d, not first pass %d of %d, gaps %d of %d, again %d of %d, %g h", s.Group, s.Jobs,
				s.NotFirstPass.Count, s.NotFirstPass.N, s.Gap.Count, s.Gap.N, s.Again.Count, s.Again.N, s.AgainHours))
			if s.Comeback != nil || s.PostScanFault != nil && s.Group != "birch" || s.Gap.Call != "" {
				t.Errorf("%s has figures without units: %+v", s.Group, s)
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("by %s, -want +got\n%s", by, diff)
		}
	}
}

// Gaps are called where the shares of gaps differ beyond chance, over all groups of at least ten jobs.
func TestSummariesCallGaps(t *testing.T) {
	group := func(name string, count, n int64) GroupSummary {
		m, err := measureOf(count, n)
		if err != nil {
			t.Fatal(err)
		}
		return GroupSummary{Group: name, Gap: m}
	}
	summaries := []GroupSummary{group("many", 30, 60), group("few", 5, 60), group("usual", 15, 60), group("small", 9, 9), group("none", 0, 0)}
	if err := callGaps(summaries); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range summaries {
		if s.Gap == nil {
			got = append(got, s.Group+" nil")
		} else {
			got = append(got, strings.TrimSpace(fmt.Sprintf("%s %s %t", s.Group, s.Gap.Call, s.Gap.Q != nil)))
		}
	}
	if diff := cmp.Diff([]string{"many higher true", "few lower true", "usual  true", "small  false", "none nil"}, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	only := []GroupSummary{group("only", 30, 60)}
	if err := callGaps(only); err != nil || only[0].Gap.Q != nil {
		t.Errorf("a shop that has no others is compared: %v, %v", only[0].Gap.Q, err)
	}
	interval, err := stats.Wilson(stats.Proportion{Count: 30, N: 60}, stats.Level95)
	if err != nil || only[0].Gap.Low != interval.Low || only[0].Gap.High != interval.High {
		t.Errorf("the interval is %g to %g", only[0].Gap.Low, only[0].Gap.High)
	}
}
