package quality

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// clockHistory has so many jobs, of which the first are scanned and driven so many minutes before the end of the work, the
// others an hour after it.
func clockHistory(t *testing.T, jobs, early, minutes int) *history.History {
	var opened, attempts, scans, drives strings.Builder
	for i := range jobs {
		day := dayOf(i).Format("2006-01-02")
		at := "11:00"
		if i < early {
			at = fmt.Sprintf("%02d:%02d", 9+(60-minutes)/60, (60-minutes)%60)
		}
		fmt.Fprintf(&opened, "alder,%d,%s 08:00,%s 17:00\n", i, day, day)
		fmt.Fprintf(&attempts, "alder,%d,static,%s 09:00,%s 10:00\n", i, day, day)
		fmt.Fprintf(&scans, "alder,%d,post,%s %s\n", i, day, at)
		fmt.Fprintf(&drives, "alder,%d,%s %s\n", i, day, at)
	}
	return testkit.History(t, testkit.Records{
		"jobs":         "shop,job_no,opened_at,closed_at\n" + opened.String(),
		"calibrations": "shop,job_no,method,started_at,ended_at\n" + attempts.String(),
		"scans":        "shop,job_no,stage,scanned_at\n" + scans.String(),
		"road_tests":   "shop,job_no,started_at\n" + drives.String(),
	})
}

func TestClocksThatDisagree(t *testing.T) {
	for name, c := range map[string]struct {
		jobs, early, minutes int
		want                 int64 // early ones that are told; 0 where nothing is
	}{
		"three of fifty":         {50, 3, 3, 3},
		"exactly 5 %":            {60, 3, 3, 0},
		"three of forty-nine":    {49, 3, 3, 0},
		"by ten minutes":         {50, 3, 10, 0},
		"by nine":                {50, 3, 9, 3},
		"everything is in order": {50, 0, 0, 0},
	} {
		h := clockHistory(t, c.jobs, c.early, c.minutes)
		clocks, err := ClocksApart(context.Background(), h, Filter{})
		if err != nil {
			t.Fatal(err)
		}
		if (len(clocks) > 0) != (c.want > 0) {
			t.Errorf("%s: %+v", name, clocks)
			continue
		}
		for i, beside := range []string{"post_scan", "road_test"} {
			if c.want > 0 && (clocks[i].Beside != beside || clocks[i].Early != c.want || clocks[i].N != int64(c.jobs) || clocks[i].Findings != c.want ||
				clocks[i].MedianMinutes != 60) {
				t.Errorf("%s: %+v", name, clocks[i])
			}
		}
		found, err := Findings(context.Background(), h, Filter{Kinds: []string{"stale_post_scan", "missing_road_test"}})
		if err != nil || len(found) != 2*c.early {
			t.Fatalf("%s: %d findings, %v: nothing less may be raised", name, len(found), err)
		}
		for _, f := range found {
			if strings.Contains(*f.Detail, "do two clocks of the shop disagree?") != (c.want > 0) {
				t.Errorf("%s: %s", name, *f.Detail)
			}
		}
	}
}
