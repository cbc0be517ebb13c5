package quality

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
)

// Trace tells the story of the vehicle or job that key names: a VIN, six or more of its last characters where they are
// unique, SHOP/JOB, or a job number that only one shop has. A job tells the whole story of its vehicle where its VIN is
// well formed. The history must have been looked back with findings. A key that names nothing, or several, is an error
// that says what comes closest.
func Trace(ctx context.Context, h *history.History, key string) (Story, error) {
	named, err := resolve(ctx, h, key)
	if err != nil {
		return Story{}, err
	}
	visits, err := history.Select[StoryVisit](ctx, h, "measures/trace_visits",
		history.Params{"vin": named.VIN, "shop": named.Shop, "job_no": named.JobNo})
	if err != nil {
		return Story{}, err
	}
	story := Story{Asked: key, Visits: visits}
	story.describe(named)
	records, err := readRecords(ctx, h, visits)
	if err != nil {
		return Story{}, err
	}
	if err := records.readChanges(ctx, h); err != nil {
		return Story{}, err
	}
	story.Findings, story.Decisions = records.findings, records.decisions
	story.tell(records)
	return story, nil
}

// tracedName is a vehicle, or a job and its vehicle.
type tracedName struct {
	Name        string
	VIN         *string `db:"vin"`
	Shop, JobNo *string
}

// resolve finds the one vehicle or job that a key names.
func resolve(ctx context.Context, h *history.History, key string) (tracedName, error) {
	key = strings.TrimSpace(key)
	vin := strings.ToUpper(strings.NewReplacer(" ", "", "-", "").Replace(key))
	params := history.Params{"key": key, "vin": vin}
	found, err := history.Select[tracedName](ctx, h, "measures/trace_find", params)
	switch {
	case err != nil:
		return tracedName{}, err
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return tracedName{}, fmt.Errorf("%q is more than one: %s; give more of it", key, listed(found))
	}
	near, err := history.Select[tracedName](ctx, h, "measures/trace_near", params)
	if err != nil {
		return tracedName{}, err
	}
	if len(near) > 0 {
		return tracedName{}, fmt.Errorf("nothing on record for %q; closest: %s", key, listed(near))
	}
	return tracedName{}, fmt.Errorf("nothing on record for %q: give a VIN, its last six characters, or SHOP/JOB", key)
}

func listed(names []tracedName) string {
	words := make([]string, len(names))
	for i, name := range names {
		words[i] = name.Name
	}
	return strings.Join(words, ", ")
}

// describe fills in the vehicle, by its latest visit that says it.
func (s *Story) describe(named tracedName) {
	for i := range s.Visits {
		visit := &s.Visits[i]
		visit.IsAsked = named.Shop != nil && *named.Shop == visit.Shop && *named.JobNo == visit.JobNo
		if visit.VIN != nil {
			s.VIN, s.WellFormed = *visit.VIN, visit.VINForm == "well_formed"
		}
		if visit.Make != nil {
			s.Make, s.Model = visit.Make, visit.Model
		}
		if visit.ModelYear != nil {
			s.ModelYear = visit.ModelYear
		}
	}
}

// records are a story's rows, kind by kind.
type records struct {
	glass     []StoryGlass
	scans     []StoryScan
	faults    []StoryFault
	attempts  []StoryAttempt
	changes   []StoryChange
	readings  []StoryReading
	roadTests []StoryRoadTest
	documents []StoryDocument
	findings  []Finding
	decisions []history.Decision
}

// readRecords reads all that belongs to the visits, but for what changed between attempts.
func readRecords(ctx context.Context, h *history.History, visits []StoryVisit) (records, error) {
	jobs := make([]string, len(visits))
	for i, visit := range visits {
		jobs[i] = visit.Shop + "\x1f" + visit.JobNo
	}
	params := history.Params{"jobs": strings.Join(jobs, "\x1e")}
	var r records
	steps := []error{
		read(ctx, h, "measures/trace_glass", params, &r.glass),
		read(ctx, h, "measures/trace_scans", params, &r.scans),
		read(ctx, h, "measures/trace_faults", params, &r.faults),
		read(ctx, h, "measures/trace_attempts", params, &r.attempts),
		read(ctx, h, "measures/trace_readings", params, &r.readings),
		read(ctx, h, "measures/trace_road_tests", params, &r.roadTests),
		read(ctx, h, "measures/trace_documents", params, &r.documents),
		read(ctx, h, "measures/trace_findings", params, &r.findings),
	}
	for _, err := range steps {
		if err != nil {
			return r, err
		}
	}
	decisions, err := history.Decisions(ctx, h, "")
	for _, d := range decisions {
		if slices.ContainsFunc(r.findings, func(f Finding) bool { return f.Finding == d.Finding }) {
			r.decisions = append(r.decisions, d)
		}
	}
	return r, err
}

// mostByJob is the number of jobs up to which what changed is asked for job by job. The engine finds one job at once; over
// several it compares the attempts of all, which takes as long as some dozen single ones.
const mostByJob = 12

// readChanges asks what changed in the jobs that have a task with a second attempt.
func (r *records) readChanges(ctx context.Context, h *history.History) error {
	var repeated []job
	for i := 1; i < len(r.attempts); i++ {
		one, other := r.attempts[i-1], r.attempts[i]
		at := job{other.Shop, other.JobNo}
		sameTask := at == job{one.Shop, one.JobNo} && one.System == other.System &&
			orEmpty(one.Position) == orEmpty(other.Position)
		if sameTask && (len(repeated) == 0 || repeated[len(repeated)-1] != at) { // the attempts of a job are together
			repeated = append(repeated, at)
		}
	}
	if len(repeated) > mostByJob {
		names := make([]string, len(repeated))
		for i, at := range repeated {
			names[i] = at.shop + "\x1f" + at.jobNo
		}
		return read(ctx, h, "measures/stories_changed", history.Params{"jobs": strings.Join(names, "\x1e")}, &r.changes)
	}
	for _, at := range repeated {
		changes, err := history.Select[StoryChange](ctx, h, "measures/trace_changed",
			history.Params{"shop": at.shop, "job_no": at.jobNo})
		if err != nil {
			return err
		}
		r.changes = append(r.changes, changes...)
	}
	return nil
}

func read[Row any](ctx context.Context, h *history.History, name string, params history.Params, rows *[]Row) error {
	var err error
	*rows, err = history.Select[Row](ctx, h, name, params)
	return err
}
