package history

import (
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/queries"
)

// oldFile unpacks the small history that plumbline wrote when its tables were of the version given.
func oldFile(t *testing.T, version int) string {
	t.Helper()
	packed, err := os.Open(filepath.Join("..", "..", "testdata", "history", fmt.Sprintf("%d.duckdb.gz", version)))
	if err != nil {
		t.Fatalf("%v\nThere must be a file of every version that ever was: see Changing the schema in DEVELOPERS.md", err)
	}
	defer packed.Close()
	in, err := gzip.NewReader(packed)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "history.duckdb")
	out, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(out, in); err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// asked gives the answer of a question as text, as of the latest event.
func asked(t *testing.T, h *History, question string) []string {
	t.Helper()
	if err := h.LookBack(t.Context(), Asked{}); err != nil {
		t.Fatal(err)
	}
	rows, err := SelectStatement[string](t.Context(), h,
		Statement{"a test", "select row::varchar as row from (" + question + ") as row order by all"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

const (
	allFindings = "select finding, severity, at, vin, decision, detail from findings"
	allJobs     = "select shop, job_no, opened_at, odometer_km from jobs union all select shop, job_no, opened_at, odometer_km from superseded.jobs"
)

func reader(t *testing.T, path string) *History {
	t.Helper()
	h, err := OpenReader(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.Close() })
	return h
}

func writer(t *testing.T, path string) *History {
	t.Helper()
	h, err := OpenWriter(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.Close() })
	return h
}

// TestEveryVersionOpensForEver reads a file of each version that ever was, brings it to today's, and finds the same in it.
func TestEveryVersionOpensForEver(t *testing.T) {
	for version := 1; version <= schemaVersion(); version++ {
		path := oldFile(t, version)
		before, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		old := reader(t, path)
		findings, jobs := asked(t, old, allFindings), asked(t, old, allJobs)
		decisions, err := Decisions(t.Context(), old, "")
		if err != nil || len(decisions) != 5 || len(jobs) < 45+4 || len(findings) < 100 {
			t.Fatalf("version %d: %d decisions, %d jobs, %d findings, %v", version, len(decisions), len(jobs), len(findings), err)
		}
		old.Close()
		if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
			t.Fatalf("version %d was changed by reading it: %v", version, err)
		}
		today := writer(t, path)
		if diff := cmp.Diff(findings, asked(t, today, allFindings)) + cmp.Diff(jobs, asked(t, today, allJobs)); diff != "" {
			t.Errorf("version %d: read as it is -, brought to today's schema +\n%s", version, diff)
		}
		if err := today.prove(t.Context(), nil, nil); err != nil {
			t.Errorf("version %d: %v", version, err)
		}
	}
}

// withAdvisor is a version of tomorrow, in which jobs have one column more.
func withAdvisor(t *testing.T, step string) {
	t.Helper()
	before := today
	t.Cleanup(func() { today = before })
	today.steps = append(today.steps[:len(today.steps):len(today.steps)], queries.Step{
		Version: schemaVersion() + 1, Name: "schema/steps/advisor", SQL: step})
	today.tables = func() []string {
		var tables []string
		for _, statements := range before.tables() {
			tables = append(tables, strings.Replace(statements, "create table jobs (", "create table jobs (advisor varchar, ", 1))
		}
		return tables
	}
}

const advisorStep = "alter table jobs add column advisor varchar; alter table superseded.jobs add column advisor varchar"

func TestAColumnMoreIsAStep(t *testing.T) {
	path := oldFile(t, schemaVersion())
	withAdvisor(t, advisorStep)
	old := reader(t, path)
	findings := asked(t, old, allFindings)
	got := asked(t, old, "select count(*) as jobs, count(advisor) as advisors, count(distinct jobs.rowid) as numbers from jobs")
	if want := "{'jobs': 45, 'advisors': 0, 'numbers': 45}"; got[0] != want {
		t.Errorf("an older file read with one column more: %s", got[0])
	}
	if got := asked(t, old, "select advisor from superseded.jobs limit 1"); len(got) != 1 {
		t.Errorf("superseded rows of an older file: %v", got)
	}
	old.Close()
	h := writer(t, path)
	if h.MigratedFrom() != schemaVersion()-1 {
		t.Errorf("brought from version %d", h.MigratedFrom())
	}
	if _, err := os.Stat(copyName(path)); err == nil {
		t.Error("the copy was not taken away")
	}
	if diff := cmp.Diff(findings, asked(t, h, allFindings)); diff != "" {
		t.Errorf("findings before -, after +\n%s", diff)
	}
	if _, err := h.Run(t.Context(), Statement{"a test", "update jobs set advisor = 'A1'"}, nil); err != nil {
		t.Error(err)
	}
}

// TestAStepThatFailsChangesNothing covers a step that the engine refuses, one that leaves another table than today's,
// and one that loses rows.
func TestAStepThatFailsChangesNothing(t *testing.T) {
	for step, want := range map[string]string{
		advisorStep + "; insert into nowhere values (1)":          "nowhere",
		"alter table jobs add column advisor integer":             "main.jobs is not as this version needs it",
		advisorStep + "; delete from rejects":                     "main.rejects has 0 rows, and had 2",
		advisorStep + "; delete from superseded.jobs where true":  "superseded.jobs has 0 rows",
		"alter table jobs add column advisor varchar; select 1/0": "superseded.jobs is not as this version needs it",
	} {
		t.Run(want, func(t *testing.T) {
			path := oldFile(t, schemaVersion())
			rows := asked(t, reader(t, path), allJobs)
			withAdvisor(t, step)
			h, err := OpenWriter(t.Context(), path)
			if err == nil {
				h.Close()
				t.Fatal("it was done")
			}
			if said := err.Error(); !strings.Contains(said, want) || !strings.Contains(said, "is as it was") {
				t.Errorf("it says: %s", said)
			}
			if left, _ := filepath.Glob(path + ".*"); len(left) != 0 {
				t.Errorf("left behind: %v", left)
			}
			if diff := cmp.Diff(rows, asked(t, reader(t, path), allJobs)); diff != "" {
				t.Errorf("rows before -, after +\n%s", diff)
			}
		})
	}
}

// TestACopyStaysUntilTheStepIsProven is about a process that died between the change and its proof.
func TestACopyStaysUntilTheStepIsProven(t *testing.T) {
	path := oldFile(t, schemaVersion())
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	withAdvisor(t, advisorStep)
	writer(t, path).Close()
	if err := os.WriteFile(copyName(path), whole, 0o600); err != nil {
		t.Fatal(err)
	}
	h := writer(t, path)
	if _, err := os.Stat(copyName(path)); err == nil {
		t.Error("the copy was not taken away although nothing is lost")
	}
	if _, err := h.Run(t.Context(), Statement{"a test", "delete from calibrations"}, nil); err != nil {
		t.Fatal(err)
	}
	h.Close()
	if err := os.WriteFile(copyName(path), whole, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := OpenWriter(t.Context(), path); err == nil || !strings.Contains(err.Error(), copyName(path)) {
		t.Errorf("rows are missing, and opening says %v", err)
	}
	if _, err := os.Stat(copyName(path)); err != nil {
		t.Error("the copy is gone although rows are missing")
	}
}

// TestRulesOfTodayReachAnOldFile changes a rule in a file, as if an older version had laid it so.
func TestRulesOfTodayReachAnOldFile(t *testing.T) {
	path := oldFile(t, 1)
	ctx := context.Background()
	older, err := open(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	const bySeverity = "select severity, count(*) as n from findings group by severity"
	err = older.run(ctx, "a test", "create or replace macro severity(kind, class, system) as 'grave';"+
		"update history_schema set views_digest = 'of an older version'")
	if err != nil {
		t.Fatal(err)
	}
	older.Close()
	old := reader(t, path)
	want := asked(t, old, bySeverity)
	if len(want) != 3 {
		t.Errorf("a reader of an older file finds severities %v", want)
	}
	old.Close()
	writer(t, path).Close()
	client, err := open(ctx, path) // as any other client of the database, without our definitions before the file's
	if err != nil {
		t.Fatal(err)
	}
	defer client.Close()
	got, err := SelectStatement[string](ctx, client, Statement{"a test", "select row::varchar from (" + bySeverity + ") as row order by all"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("a reader of the old file -, another client of the file after a writer +\n%s", diff)
	}
}
