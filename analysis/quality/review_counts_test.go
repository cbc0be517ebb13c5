package quality

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// What the review counts in several ways must add up to the same.
func TestReviewCountsReconcile(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	findings := must(Findings(ctx, h, Filter{}))
	kinds, dated := map[string]int64{}, int64(0)
	for _, f := range findings {
		kinds[f.Kind]++
		if f.At != nil {
			dated++
		}
	}
	var left, cleared, stored, before int64
	for _, m := range must(ScanFaultsByMonth(ctx, h, Filter{})) {
		left, cleared, stored, before = left+m.Left(), cleared+m.Cleared, stored+m.StillStored, before+m.FaultsBefore
	}
	var moduleLeft, moduleCleared int64
	for _, m := range must(ScanFaultsByModule(ctx, h, Filter{})) {
		moduleLeft, moduleCleared = moduleLeft+m.Left(), moduleCleared+m.Cleared
	}
	var tallied int64
	for _, tally := range must(FindingsByMonth(ctx, h, Filter{})) {
		tallied += tally.Findings
	}
	var tasks, missed int64
	for _, s := range must(FirstPassBySystem(ctx, h, Filter{})) {
		tasks, missed = tasks+s.Tasks, missed+s.NotFirstPass
	}
	var trendTasks, trendMissed int64
	for _, p := range must(Trend(ctx, h, TrendQuery{Outcome: NotFirstPass, By: Month})) {
		trendTasks, trendMissed = trendTasks+p.N, trendMissed+p.Count
	}
	volume, err := ReadVolume(ctx, h, Filter{})
	if err != nil {
		t.Fatal(err)
	}
	returns := must(Returns(ctx, h, Filter{}))
	counted := int64(0)
	for _, back := range returns {
		if back.IsCounted {
			counted++
		}
	}
	for what, pair := range map[string][2]int64{
		"faults left, by month and as findings":   {left, kinds["post_scan_fault"]},
		"faults left, by month and by module":     {left, moduleLeft},
		"faults cleared, by month and by module":  {cleared, moduleCleared},
		"findings, tallied and listed":            {tallied, dated},
		"tasks, by system and in the trend":       {tasks, trendTasks},
		"missed tasks, by system and in trend":    {missed, trendMissed},
		"tasks, by system and as volume":          {tasks, volume.Tasks},
		"comebacks, listed and as findings":       {int64(len(returns)), kinds["comeback"]},
		"counted comebacks, listed and as volume": {counted, volume.Returns},
	} {
		if pair[0] != pair[1] || pair[0] == 0 {
			t.Errorf("%s: %d and %d", what, pair[0], pair[1])
		}
	}
	if cleared > before || stored == 0 {
		t.Errorf("%d of %d codes before are cleared, %d stored after", cleared, before, stored)
	}
}

// Every grouping covers as many tasks as its comparison does.
func TestCoverageIsThatOfTheComparison(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	got := map[string]Coverage{}
	for _, c := range must(Coverages(ctx, h, Filter{})) {
		got[c.Grouping] = c
	}
	for _, by := range Groupings {
		c, err := Compare(ctx, h, by, NotFirstPass, Filter{})
		if err != nil {
			t.Fatal(err)
		}
		if want := (Coverage{Grouping: by, N: c.Pooled.N, LeftOut: c.LeftOut}); got[by] != want {
			t.Errorf("%+v, expected %+v", got[by], want)
		}
	}
}

// Stories read at once are those that Trace tells one by one.
func TestStoriesAreTraces(t *testing.T) {
	ctx, h := context.Background(), openSmall(t)
	var jobs []JobName
	seen := map[JobName]bool{}
	for _, f := range must(Findings(ctx, h, Filter{})) {
		job := JobName{f.Shop, f.JobNo}
		if f.Severity == "high" && !seen[job] && len(jobs) < 40 {
			seen[job] = true
			jobs = append(jobs, job)
		}
	}
	stories := must(Stories(ctx, h, jobs))
	told := 0
	for _, story := range stories {
		for _, job := range jobs {
			if !story.holds(job) {
				continue
			}
			want, err := Trace(ctx, h, job.Shop+"/"+job.JobNo)
			if err != nil {
				t.Fatal(err)
			}
			told++
			if diff := cmp.Diff(want, story, cmpopts.IgnoreFields(Story{}, "Asked"),
				cmpopts.IgnoreFields(StoryVisit{}, "IsAsked"), cmpopts.EquateEmpty()); diff != "" {
				t.Errorf("%v (-trace +stories):\n%s", job, diff)
			}
		}
	}
	if told != len(jobs) {
		t.Errorf("%d of %d jobs are in a story", told, len(jobs))
	}
}

func (s Story) holds(job JobName) bool {
	for _, visit := range s.Visits {
		if visit.Shop == job.Shop && visit.JobNo == job.JobNo {
			return true
		}
	}
	return false
}

// must gives rows that a test cannot do without.
func must[Row any](rows []Row, err error) []Row {
	if err != nil {
		panic(err)
	}
	return rows
}
