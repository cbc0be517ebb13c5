package audit

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/audit/sample"
	"plumbline/analysis/testkit"
)

func openBook(t *testing.T, path string) *excelize.File {
	t.Helper()
	book, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { book.Close() })
	return book
}

func value(t *testing.T, book *excelize.File, sheet, cell string) string {
	t.Helper()
	text, err := book.GetCellValue(sheet, cell)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func TestWorkbookHasTheRowsOfTheCSV(t *testing.T) {
	dir, _ := made(t, Options{Sample: &sample.Request{AQL: "6.5"}})
	book := openBook(t, filepath.Join(dir, "audit.xlsx"))
	want := []string{"cover", "jobs", "attempts", "measurements", "scans", "faults", "glass", "road tests", "documents",
		"findings", "missing", "sample", "definitions"}
	if diff := cmp.Diff(want, book.GetSheetList()); diff != "" {
		t.Errorf("sheets -want +got\n%s", diff)
	}
	for _, table := range tables {
		rows, err := book.GetRows(strings.ReplaceAll(table.name, "_", " "))
		if err != nil {
			t.Fatal(err)
		}
		for i, record := range rowsOf(t, dir, table.name) {
			for j, name := range rows[0] {
				got := ""
				if j < len(rows[i+1]) { // empty cells at the end of a row are not given
					got = rows[i+1][j]
				}
				if got != record[name] {
					t.Errorf("%s row %d: %s is %q, in the CSV %q", table.name, i+2, name, got, record[name])
				}
			}
		}
	}
}

func TestWorkbookIsMadeForReading(t *testing.T) {
	dir, _ := made(t, Options{})
	book := openBook(t, filepath.Join(dir, "audit.xlsx"))
	// opened_at is a date: a number that the cell's style shows as one
	raw, err := book.GetCellValue("jobs", "I3", excelize.Options{RawCellValue: true})
	if err != nil || raw != "46027.333333333336" && raw != "46027.3333333333" {
		t.Errorf("the opening of A-1 is stored as %q, not as 5 January 2026 08:00 (%v)", raw, err)
	}
	if kind, err := book.GetCellType("measurements", "G3"); err != nil || kind != excelize.CellTypeNumber && kind != excelize.CellTypeUnset {
		t.Errorf("-3 mm is of type %v (%v)", kind, err)
	}
	panes, err := book.GetPanes("jobs")
	if err != nil || !panes.Freeze || panes.YSplit != 1 {
		t.Errorf("the header is not frozen: %+v (%v)", panes, err)
	}
	names := map[string]string{}
	for _, name := range book.GetDefinedName() {
		if name.Scope == "road tests" {
			names[name.Name] = name.RefersTo
		}
	}
	want := map[string]string{"_xlnm.Print_Area": "'road tests'!$A$1:$L$3", "_xlnm.Print_Titles": "'road tests'!$A:$B,'road tests'!$1:$1",
		"_xlnm._FilterDatabase": "'road tests'!$A$1:$L$3"}
	if diff := cmp.Diff(want, names); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if width, err := book.GetColWidth("jobs", "C"); err != nil || width < 17 {
		t.Errorf("a VIN does not fit its column of %v characters (%v)", width, err)
	}
}

func TestFullSheetGoesOnInTheNext(t *testing.T) {
	dir, _ := made(t, Options{sheetRows: 4})
	book := openBook(t, filepath.Join(dir, "audit.xlsx"))
	var got []string
	for _, sheet := range []string{"jobs", "jobs 2", "attempts", "attempts 2", "attempts 3", "glass"} {
		rows, err := book.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		var jobs []string
		for _, row := range rows {
			jobs = append(jobs, row[1])
		}
		got = append(got, sheet+": "+strings.Join(jobs, " "))
	}
	want := []string{"jobs: job_no A-6 A-1 A-2", "jobs 2: job_no A-3 A-4 A-5", "attempts: job_no A-6 A-1 A-2",
		"attempts 2: job_no A-2 A-3 A-4", "attempts 3: job_no A-5", "glass: job_no A-1"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// recalculate makes LibreOffice calculate a workbook anew when it loads one, whoever wrote it.
const recalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// LibreOffice Calc opens the workbook, recalculates it and comes to the same numbers, with no error in any cell. The
// stored results are wiped before, so that it cannot show ours.
func TestLibreOfficeRecalculatesTheWorkbook(t *testing.T) {
	dir, result := made(t, Options{sheetRows: 4, Sample: &sample.Request{AQL: "6.5"}})
	scratch := t.TempDir()
	profile := filepath.Join(scratch, "profile")
	if err := os.MkdirAll(filepath.Join(profile, "user"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "user", "registrymodifications.xcu"), []byte(recalculate), 0o600); err != nil {
		t.Fatal(err)
	}
	book := openBook(t, filepath.Join(dir, "audit.xlsx"))
	formulas := wipeResults(t, book)
	if err := book.SaveAs(filepath.Join(scratch, "wiped.xlsx")); err != nil {
		t.Fatal(err)
	}
	convert := exec.Command(testkit.Program(t, "soffice"), "-env:UserInstallation=file://"+profile, "--headless", "--convert-to", "xlsx",
		"--outdir", filepath.Join(scratch, "out"), filepath.Join(scratch, "wiped.xlsx"))
	if out, err := convert.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	again := openBook(t, filepath.Join(scratch, "out", "wiped.xlsx"))
	for _, sheet := range again.GetSheetList() {
		rows, err := again.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for i, row := range rows {
			for j, text := range row {
				if kind, err := again.GetCellType(sheet, cellName(t, j+1, i+1)); err != nil || kind == excelize.CellTypeError {
					t.Errorf("%s row %d: error %q (%v)", sheet, i+1, text, err)
				}
			}
		}
	}
	got := map[string]string{}
	for cell, name := range formulas {
		got[name] = value(t, again, "cover", cell)
	}
	want := map[string]string{"Share complete": "20.00%"}
	for _, rows := range result.Rows {
		want[strings.ReplaceAll(rows.Table, "_", " ")] = record.Field(rows.Rows)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// wipeResults sets the stored result of every formula on the cover to nothing and gives their cells and names.
func wipeResults(t *testing.T, book *excelize.File) map[string]string {
	t.Helper()
	formulas := map[string]string{}
	rows, err := book.GetRows("cover")
	if err != nil {
		t.Fatal(err)
	}
	for i := range rows {
		cell := cellName(t, 2, i+1)
		formula, err := book.GetCellFormula("cover", cell)
		if err != nil {
			t.Fatal(err)
		}
		if formula == "" {
			continue
		}
		formulas[cell] = value(t, book, "cover", cellName(t, 1, i+1))
		if err := book.SetCellValue("cover", cell, nil); err != nil {
			t.Fatal(err)
		}
		if err := book.SetCellFormula("cover", cell, formula); err != nil {
			t.Fatal(err)
		}
	}
	return formulas
}

func cellName(t *testing.T, column, row int) string {
	t.Helper()
	name, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		t.Fatal(err)
	}
	return name
}
