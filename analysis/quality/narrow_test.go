package quality_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
	"plumbline/analysis/quality"
)

// TestAStoryReadsOnlyItsVehicle tells the stories of jobs with findings that compare one job with others, and of the jobs
// that these rest on, twice: from the records of the jobs that can bear on it, as a reader does, and from the whole history, as one that is
// open for writing does.
func TestAStoryReadsOnlyItsVehicle(t *testing.T) {
	path := filepath.Join(t.TempDir(), "history.duckdb")
	writing, err := history.OpenWriter(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	_, err = intake.Import(t.Context(), writing, intake.Options{
		Files: []string{filepath.Join("..", "..", "testdata", "history-small")}, Now: time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	early := time.Date(2025, 6, 1, 12, 0, 0, 0, time.UTC)
	for _, asked := range []history.Asked{{}, {AsOf: &early, WindowDays: 400}} {
		if err := writing.LookBack(t.Context(), asked); err != nil {
			t.Fatal(err)
		}
		keys := subjects(t, writing)
		if asked.AsOf != nil {
			keys = keys[:8]
		}
		whole := stories(t, writing, keys)
		if err := writing.Close(); err != nil {
			t.Fatal(err)
		}
		reader, err := history.OpenReader(t.Context(), path)
		if err != nil {
			t.Fatal(err)
		}
		if err := reader.LookBack(t.Context(), asked); err != nil {
			t.Fatal(err)
		}
		for key, story := range stories(t, reader, keys) {
			if diff := cmp.Diff(whole[key], story); diff != "" {
				t.Errorf("%s: whole -, narrow +\n%s", key, diff)
			}
		}
		if err := reader.Close(); err != nil {
			t.Fatal(err)
		}
		if writing, err = history.OpenWriter(t.Context(), path); err != nil {
			t.Fatal(err)
		}
	}
	writing.Close()
}

// subjects names jobs of every kind and class of finding.
func subjects(t *testing.T, h *history.History) []string {
	t.Helper()
	keys, err := history.SelectStatement[string](t.Context(), h, history.Statement{Name: "subjects", SQL: `
select distinct key
from (
    select unnest([arg_min(shop || '/' || job_no, finding), arg_max(prior_shop || '/' || prior_job_no, finding)]) as key
    from findings
    where kind in ('comeback', 'broken_link', 'missing_calibration', 'overlapping_work', 'repeated_readings',
                   'equipment_overdue', 'post_scan_fault')
    group by kind, class
)
where key is not null
order by hash(key) limit 24`}, nil)
	if err != nil || len(keys) < 20 {
		t.Fatalf("%d subjects, %v", len(keys), err)
	}
	return keys
}

func stories(t *testing.T, h *history.History, keys []string) map[string]quality.Story {
	t.Helper()
	told := map[string]quality.Story{}
	for _, key := range keys {
		story, err := quality.Trace(t.Context(), h, key)
		if err != nil {
			t.Fatalf("%s: %v", key, err)
		}
		told[key] = story
	}
	return told
}
