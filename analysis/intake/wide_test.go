package intake

import (
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/layout"
)

// Records written wide by other programs (testdata/wide/README.md), one row a job, and profiled back are the same history
// row for row, from the text and from the workbook that LibreOffice made of it.
func TestWideFormIsTheSameHistory(t *testing.T) {
	const folder = "testdata/wide/"
	plain := newHistory(t)
	var files []string
	for _, kind := range layout.KindNames() {
		if layout.KindNamed(kind).HasJob() {
			files = append(files, filepath.Join(folder, kind+".csv"))
		}
	}
	rows := map[string]int64{}
	for _, balance := range imported(t, plain, Options{Files: files}).Files {
		rows[balance.Kind] = balance.Added
	}
	want := contents(t, plain)
	for _, name := range []string{"wide.csv", "wide.xlsx"} {
		h := newHistory(t)
		for _, balance := range imported(t, h, Options{Files: []string{folder + name}, Profile: folder + "wide.toml"}).Files {
			if balance.Read != rows[balance.Kind] || balance.Added != balance.Read || rows[balance.Kind] == 0 {
				t.Errorf("%s: %+v, want %d %v", name, balance, rows[balance.Kind], faultLines(t, h))
			}
		}
		if diff := cmp.Diff(want, contents(t, h)); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}
