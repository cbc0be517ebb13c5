package quality

import (
	"context"
	"strings"

	"plumbline/analysis/history"
)

// A JobName names one job.
type JobName struct{ Shop, JobNo string }

// Stories tells the stories of all vehicles that the jobs were done on, as Trace does for one, in the order in which
// the jobs name them. The records are read once for all. The history must have been looked back.
func Stories(ctx context.Context, h *history.History, jobs []JobName) ([]Story, error) {
	if len(jobs) == 0 {
		return nil, nil
	}
	names := make([]string, len(jobs))
	for i, job := range jobs {
		names[i] = job.Shop + "\x1f" + job.JobNo
	}
	visits, err := history.Select[StoryVisit](ctx, h, "measures/stories_visits",
		history.Params{"jobs": strings.Join(names, "\x1e")})
	if err != nil {
		return nil, err
	}
	all, err := readRecords(ctx, h, visits)
	if err != nil {
		return nil, err
	}
	var stories []Story
	for _, group := range byVehicle(jobs, visits) {
		own := all.of(group)
		story := Story{Asked: group[0].Shop + "/" + group[0].JobNo, Visits: group, Findings: own.findings,
			Decisions: own.decisions}
		story.describe(tracedName{})
		story.tell(own)
		stories = append(stories, story)
	}
	return stories, nil
}

// nameJobs names visits as the queries take them.
func nameJobs(visits []StoryVisit) string {
	names := make([]string, len(visits))
	for i, visit := range visits {
		names[i] = visit.Shop + "\x1f" + visit.JobNo
	}
	return strings.Join(names, "\x1e")
}

// byVehicle groups visits by their well-formed VIN, else each by itself, in the order of the jobs.
func byVehicle(jobs []JobName, visits []StoryVisit) [][]StoryVisit {
	groups := map[string][]StoryVisit{}
	keys := map[JobName]string{}
	for _, visit := range visits {
		key := "job\x1f" + visit.Shop + "\x1f" + visit.JobNo
		if visit.VINForm == "well_formed" {
			key = *visit.VIN
		}
		groups[key] = append(groups[key], visit)
		keys[JobName{visit.Shop, visit.JobNo}] = key
	}
	var ordered [][]StoryVisit
	for _, job := range jobs {
		if group, left := groups[keys[job]]; left {
			ordered = append(ordered, group)
			delete(groups, keys[job])
		}
	}
	return ordered
}

// of keeps what belongs to some visits; a finding also belongs to the visit that it rests on.
func (r records) of(visits []StoryVisit) records {
	own := map[job]bool{}
	for _, visit := range visits {
		own[job{visit.Shop, visit.JobNo}] = true
	}
	kept := map[string]bool{}
	part := records{
		glass:     those(r.glass, func(g StoryGlass) bool { return own[job{g.Shop, g.JobNo}] }),
		scans:     those(r.scans, func(s StoryScan) bool { return own[job{s.Shop, s.JobNo}] }),
		faults:    those(r.faults, func(f StoryFault) bool { return own[job{f.Shop, f.JobNo}] }),
		attempts:  those(r.attempts, func(a StoryAttempt) bool { return own[job{a.Shop, a.JobNo}] }),
		changes:   those(r.changes, func(c StoryChange) bool { return own[job{c.Shop, c.JobNo}] }),
		readings:  those(r.readings, func(m StoryReading) bool { return own[job{m.Shop, m.JobNo}] }),
		roadTests: those(r.roadTests, func(t StoryRoadTest) bool { return own[job{t.Shop, t.JobNo}] }),
		documents: those(r.documents, func(d StoryDocument) bool { return own[job{d.Shop, d.JobNo}] }),
		findings: those(r.findings, func(f Finding) bool {
			kept[f.Finding] = own[job{f.Shop, f.JobNo}] ||
				f.PriorShop != nil && f.PriorJobNo != nil && own[job{*f.PriorShop, *f.PriorJobNo}]
			return kept[f.Finding]
		}),
	}
	part.decisions = those(r.decisions, func(d history.Decision) bool { return kept[d.Finding] })
	return part
}

func those[Row any](rows []Row, belongs func(Row) bool) []Row {
	var kept []Row
	for _, row := range rows {
		if belongs(row) {
			kept = append(kept, row)
		}
	}
	return kept
}
