package quality

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"

	"plumbline/analysis/history"
)

// Trace tells the story of the vehicle or job that key names: a VIN, six or more of its last characters where they are
// unique, SHOP/JOB, or a job number that only one shop has. A job tells the whole story of its vehicle where its VIN is
// well formed. The history must have been looked back. A key that names nothing, or several, is an error
// that says what comes closest.
func Trace(ctx context.Context, h *history.History, key string) (Story, error) {
	if err := h.Widen(ctx); err != nil { // after an earlier story
		return Story{}, err
	}
	named, err := resolve(ctx, h, key)
	if err != nil {
		return Story{}, err
	}
	subject := history.Params{"vin": named.VIN, "shop": named.Shop, "job_no": named.JobNo}
	if err := h.Narrow(ctx, "measures/trace_scope", "measures/trace_names", subject); err != nil {
		return Story{}, err
	}
	visits, err := history.Select[StoryVisit](ctx, h, "measures/trace_visits", subject)
	if err != nil {
		return Story{}, err
	}
	story := Story{Asked: key, Visits: visits}
	story.describe(named)
	records, err := readRecords(ctx, h, visits)
	if err != nil {
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

// readRecords reads all that belongs to the visits, kind by kind side by side.
func readRecords(ctx context.Context, h *history.History, visits []StoryVisit) (records, error) {
	params := history.Params{"jobs": nameJobs(visits)}
	var r records
	var decisions []history.Decision
	var kinds errgroup.Group
	for _, kind := range []func() error{
		func() error { return read(ctx, h, "measures/stories_changed", params, &r.changes) },
		func() error { return read(ctx, h, "measures/trace_readings", params, &r.readings) },
		func() error { return read(ctx, h, "measures/trace_documents", params, &r.documents) },
		func() error { return read(ctx, h, "measures/trace_findings", params, &r.findings) },
		func() error { return read(ctx, h, "measures/trace_glass", params, &r.glass) },
		func() error { return read(ctx, h, "measures/trace_scans", params, &r.scans) },
		func() error { return read(ctx, h, "measures/trace_faults", params, &r.faults) },
		func() error { return read(ctx, h, "measures/trace_attempts", params, &r.attempts) },
		func() error { return read(ctx, h, "measures/trace_road_tests", params, &r.roadTests) },
		func() error {
			var err error
			decisions, err = history.Decisions(ctx, h, "")
			return err
		},
	} {
		kinds.Go(kind)
	}
	if err := kinds.Wait(); err != nil {
		return r, err
	}
	for _, d := range decisions {
		if slices.ContainsFunc(r.findings, func(f Finding) bool { return f.Finding == d.Finding }) {
			r.decisions = append(r.decisions, d)
		}
	}
	return r, nil
}

func read[Row any](ctx context.Context, h *history.History, name string, params history.Params, rows *[]Row) error {
	var err error
	*rows, err = history.Select[Row](ctx, h, name, params)
	return err
}
