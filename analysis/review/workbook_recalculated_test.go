package review

import (
	"archive/zip"
	"bytes"
	"context"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/testkit"
)

// spreadsheetProgram is LibreOffice, which works out formulas without this project's help.
const spreadsheetProgram = "soffice"

var savedValue = regexp.MustCompile(`(</f>)<v>[^<]*</v>`)

// recalculated has a spreadsheet program open the workbook, with no value saved beside any formula, and save it again.
func recalculated(t *testing.T, content []byte) *excelize.File {
	t.Helper()
	program := testkit.Program(t, spreadsheetProgram)
	dir := t.TempDir()
	from, to := filepath.Join(dir, "bare.xlsx"), filepath.Join(dir, "out")
	check(t, os.WriteFile(from, withoutValues(t, content), 0o600))
	ctx, stop := context.WithTimeout(context.Background(), 3*time.Minute)
	defer stop()
	profile := "-env:UserInstallation=file://" + filepath.ToSlash(filepath.Join(dir, "profile"))
	said, err := exec.CommandContext(ctx, program, profile, "--headless", "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", to, from).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, said)
	}
	saved, err := os.ReadFile(filepath.Join(to, "bare.xlsx"))
	check(t, err)
	return open(t, saved)
}

// withoutValues takes the saved value of every formula out of a workbook.
func withoutValues(t *testing.T, content []byte) []byte {
	t.Helper()
	source, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	check(t, err)
	var out bytes.Buffer
	target := zip.NewWriter(&out)
	for _, part := range source.File {
		from, err := part.Open()
		check(t, err)
		text, err := io.ReadAll(from)
		check(t, err)
		check(t, from.Close())
		if strings.HasPrefix(part.Name, "xl/worksheets/sheet") {
			text = savedValue.ReplaceAll(text, []byte("$1"))
			if bytes.Contains(text, []byte("</f><v>")) {
				t.Fatalf("%s: a value is left beside a formula", part.Name)
			}
		}
		to, err := target.Create(part.Name)
		check(t, err)
		_, err = to.Write(text)
		check(t, err)
	}
	check(t, target.Close())
	return out.Bytes()
}

// Every formula, worked out by another program, gives the review's own figure; no cell of any sheet is an error.
func TestFormulasGiveTheFigures(t *testing.T) {
	r, err := gatherSmall(Options{}) // all shops, and no labor rate
	check(t, err)
	t.Run("all shops", func(t *testing.T) { formulasGiveTheFigures(t, r) })
	t.Run("one shop", func(t *testing.T) { formulasGiveTheFigures(t, mustReview(t)) })
}

func formulasGiveTheFigures(t *testing.T, r Review) {
	content, written := workbookOf(t, r)
	worked := recalculated(t, content)
	formulas := 0
	for _, sheet := range written.GetSheetList() {
		rows, err := written.GetRows(sheet)
		check(t, err)
		for i, row := range rows {
			for k := range row {
				at, err := excelize.CoordinatesToCellName(k+1, i+1)
				check(t, err)
				want, got := rawValue(t, written, sheet, at), rawValue(t, worked, sheet, at)
				if kind, err := worked.GetCellType(sheet, at); err != nil || kind == excelize.CellTypeError || strings.HasPrefix(got, "Err:") {
					t.Errorf("%s %s is an error: %q %v", sheet, at, got, err)
				}
				text, err := written.GetCellFormula(sheet, at)
				check(t, err)
				if text == "" {
					continue
				}
				formulas++
				if !sameFigure(want, got) {
					t.Errorf("%s %s: =%s comes to %q, the review has %q", sheet, at, text, got, want)
				}
			}
		}
	}
	if formulas < 500 {
		t.Errorf("only %d formulas", formulas)
	}
	t.Logf("%d formulas", formulas)
}

func rawValue(t *testing.T, f *excelize.File, sheet, at string) string {
	t.Helper()
	value, err := f.GetCellValue(sheet, at, excelize.Options{RawCellValue: true})
	check(t, err)
	return value
}

// sameFigure compares to nine digits: the programs' quantiles of chi-squared and the normal distribution agree to that.
func sameFigure(want, got string) bool {
	one, oneErr := strconv.ParseFloat(want, 64)
	other, otherErr := strconv.ParseFloat(got, 64)
	if oneErr != nil || otherErr != nil {
		return want == got
	}
	return math.Abs(one-other) <= 1e-9*max(1, math.Abs(one))
}

func dateOf(t *testing.T, number string) time.Time {
	t.Helper()
	days, err := strconv.ParseFloat(number, 64)
	check(t, err)
	date, err := excelize.ExcelDateToTime(days, false)
	check(t, err)
	return date
}
