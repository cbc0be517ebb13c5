package review

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/answer"
	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/workbook"
	"plumbline/analysis/quality"
)

const goldenWorkbook = "testdata/golden/workbook"

// workbookOf writes a review's workbook and opens it.
func workbookOf(t *testing.T, r Review) ([]byte, *excelize.File) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "review.xlsx")
	check(t, WriteWorkbook(context.Background(), r, path))
	content, err := os.ReadFile(path)
	check(t, err)
	return content, open(t, content)
}

func open(t *testing.T, content []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(content))
	check(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

func TestGoldenWorkbook(t *testing.T) {
	content, f := workbookOf(t, mustReview(t))
	claimed := []string{"charts.txt"}
	for _, sheet := range f.GetSheetList() {
		name := strings.ReplaceAll(strings.ToLower(sheet), " ", "-") + ".txt"
		claimed = append(claimed, name)
		compareGolden(t, filepath.Join(goldenWorkbook, name), dumpSheet(t, f, sheet))
	}
	compareGolden(t, filepath.Join(goldenWorkbook, "charts.txt"), dumpCharts(t, content))
	entries, err := os.ReadDir(goldenWorkbook)
	check(t, err)
	for _, entry := range entries {
		if !slices.Contains(claimed, entry.Name()) {
			t.Errorf("no test compares %s", entry.Name())
		}
	}
}

// Two workbooks of the same records, gathered twice, are the same to the byte.
func TestWorkbookIsReproducible(t *testing.T) {
	r := mustReview(t)
	rate := 95.0
	o := Options{Month: smallMonth, Version: "test", LaborRate: &rate, Currency: "EUR"}
	o.Asked.AsOf, o.Filter.Shop = &smallAsOf, "birch"
	again, err := gatherSmall(o)
	check(t, err)
	first, _ := workbookOf(t, r)
	for range 5 {
		if second, _ := workbookOf(t, again); !bytes.Equal(first, second) {
			t.Fatal("two workbooks of the same review differ")
		}
	}
	properties, err := open(t, first).GetDocProps()
	check(t, err)
	if want := smallAsOf.Format(time.RFC3339); properties.Created != want || properties.Modified != want {
		t.Errorf("the document is dated %s, %s; want the review's as-of, %s", properties.Created, properties.Modified, want)
	}
}

// A sheet that is full goes on in a next one, with its heading; nothing is lost or shown twice.
func TestSheetsContinue(t *testing.T) {
	r := mustReview(t)
	const limit = 20
	r.Findings = nil
	for i := range 3 * limit {
		r.Findings = append(r.Findings, quality.Finding{Finding: fmt.Sprintf("f%02d", i), Kind: "comeback", Severity: "low"})
	}
	content, err := workbook.Bytes(context.Background(), workbook.Book{Title: "t", Exhibits: []exhibit.Exhibit{answer.FindingSheet(r.About, r.Findings, r.linker())}, Limit: limit})
	check(t, err)
	f := open(t, content)
	var got, want []string
	for _, sheet := range f.GetSheetList()[1:] {
		rows, err := f.GetRows(sheet)
		check(t, err)
		if len(rows) > limit {
			t.Errorf("sheet %s has %d rows, more than %d", sheet, len(rows), limit)
		}
		if rows[3][2] != "Finding" {
			t.Errorf("sheet %s has no heading: %q", sheet, rows[3])
		}
		for _, row := range rows[4:] {
			got = append(got, row[2])
		}
	}
	for _, finding := range r.Findings {
		want = append(want, finding.Finding)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("findings over several sheets (-want +got):\n%s", diff)
	}
	if listed, err := f.GetCellValue("Cover", "A6"); err != nil || listed != "Findings 2" {
		t.Errorf("the cover lists %q, %v", listed, err)
	}
}

// A history without records makes a workbook that says so.
func TestWorkbookOfNothing(t *testing.T) {
	_, f := workbookOf(t, Review{})
	want := []string{"Cover", "Data quality", "Clocks", "Doubtful names", "Left out", "Rows set aside", "Imports", "Definitions"}
	if diff := cmp.Diff(want, f.GetSheetList()); diff != "" {
		t.Errorf("sheets (-want +got):\n%s", diff)
	}
	said, err := f.GetCellValue("Cover", "B4")
	check(t, err)
	if !strings.Contains(said, "nothing to review") {
		t.Errorf("the cover says %q", said)
	}
}
