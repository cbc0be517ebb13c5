package audit

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
	"plumbline/analysis/testkit"
)

// TestAColumnOfTheLayoutReachesTheBundle adds jobs.advisor as its one line in the layout would, and walks it from the cell of
// a CSV file to the table, to the bundle with its meaning, and through an export to the same history.
func TestAColumnOfTheLayoutReachesTheBundle(t *testing.T) {
	jobs := layout.KindNamed("jobs")
	before := jobs.Columns
	t.Cleanup(func() { jobs.Columns = before })
	jobs.Columns = append(slices.Clone(before),
		layout.Column{Name: "advisor", Type: layout.Text, Meaning: "who spoke with the customer"})
	h := testkit.History(t, testkit.Records{"jobs": `
		shop,job_no,opened_at,closed_at,insurer,advisor
		hull,A-1,2026-01-05 08:00,2026-01-05 16:00,Alder Mutual,D. Grey
		hull,A-2,2026-01-06 08:00,2026-01-06 16:00,Alder Mutual,
		hull,B-1,2026-01-06 08:00,2026-01-06 16:00,Birch Cover,E. Brown`})
	out := filepath.Join(t.TempDir(), "bundle")
	if _, err := Bundle(t.Context(), h, Options{Insurer: "Alder Mutual", Out: out, Key: testKey(t)}); err != nil {
		t.Fatal(err)
	}
	var advisors []string
	for _, row := range rowsOf(t, out, "jobs") {
		advisors = append(advisors, row["job_no"]+" "+row["advisor"])
	}
	if got := strings.Join(advisors, ", "); got != "A-1 D. Grey, A-2 " {
		t.Errorf("the bundle's jobs: %s", got)
	}
	described := tables[0].describe()
	if last := described[len(described)-1]; last.Name != "advisor" || last.Meaning != "who spoke with the customer" {
		t.Errorf("the last column described is %v", last)
	}
	export := t.TempDir()
	if _, err := h.Export(t.Context(), export, func(string, int64, int64) {}); err != nil {
		t.Fatal(err)
	}
	again, err := history.InMemory(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if _, err := again.Restore(t.Context(), export); err != nil {
		t.Fatal(err)
	}
	restored, err := history.SelectStatement[string](t.Context(), again,
		history.Statement{Name: "advisors", SQL: "select advisor from jobs where advisor is not null order by all"}, nil)
	if err != nil || strings.Join(restored, ", ") != "D. Grey, E. Brown" {
		t.Errorf("after an export and back: %v, %v", restored, err)
	}
}
