package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestAnExportIsTheSameHistory takes a history with rejected, replaced, undone, unnumbered and decided records through an
// export and back: journal, rows set aside, decisions and findings are equal, and a bundle is equal to the byte. Asked as it
// is, the export answers the same.
func TestAnExportIsTheSameHistory(t *testing.T) {
	folder := t.TempDir()
	before, after, export := filepath.Join(folder, "before.duckdb"), filepath.Join(folder, "after.duckdb"), filepath.Join(folder, "export")
	t.Chdir(filepath.Join("..", "..", "testdata", "history", "records"))
	newHistory(t, before)
	said(t, before, 0, "export", "--out", export)
	said(t, after, 0, "import", export)
	for _, question := range [][]string{
		{"findings"}, {"imports"}, {"rejects"}, {"decide", "--list"}, {"trend", "--outcome", "comeback"}, {"check"},
		{"query", "--sql", "select shop, job_no, odometer_km, from_file, replaced_by from superseded.jobs order by all"},
		{"query", "--sql", "select shop, job_no, system, attempt_no, started_at, date_only, known_as, from_file from calibrations order by all"},
		{"query", "--sql", "select kind, shop, job_no, number, content from given_numbers order by all"},
	} {
		question = append(question, "--format", "csv")
		want := said(t, before, 0, question...)
		if diff := cmp.Diff(want, said(t, after, 0, question...)); diff != "" {
			t.Errorf("%v: before -, after +\n%s", question, diff)
		}
		if question[0] == "check" { // an export has no definitions to look at
			continue
		}
		if diff := cmp.Diff(want, said(t, export, 0, question...)); diff != "" {
			t.Errorf("%v: the history -, its export +\n%s", question, diff)
		}
	}
	for _, path := range []string{before, after, export} {
		said(t, path, 0, "audit", "--insurer", "Oak \"Leaf\" Insurance", "--out", path+".bundle")
	}
	want := contents(t, before+".bundle")
	if len(want) < 10 {
		t.Fatalf("a bundle of %d files", len(want))
	}
	for _, path := range []string{after, export} {
		if diff := cmp.Diff(want, contents(t, path+".bundle")); diff != "" {
			t.Errorf("bundles of the history and of %s differ\n%.2000s", filepath.Base(path), diff)
		}
	}
}

// contents gives the text of every file of a folder by its name.
func contents(t *testing.T, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(folder, func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(folder, path)
		all[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
