package intake

import (
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// A sheet as a desk keeps it: real dates, clocks and numbers beside numbers written as text, a formula, merged cells,
// hidden rows, columns and sheets.
func deskSheet(t *testing.T, date1904 bool) string {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	style := func(code string) int {
		id, err := book.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err != nil {
			t.Fatal(err)
		}
		return id
	}
	day := 46090.0 // 2026-03-09
	if date1904 {
		day -= 1462
	}
	cells := map[string]any{"A1": "RO", "B1": "In", "C1": "At", "D1": "Odo", "E1": "Make", "F1": "Phone",
		"A2": 1, "B2": day, "C2": 14.0/24 + 5.0/1440, "D2": 1234.567, "E2": "Orlane", "F2": 5551234,
		"A3": 2, "B3": day + 1, "C3": "3:00 PM", "D3": "1.234,5", "F3": 5551234}
	failed := book.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &date1904})
	for cell, value := range cells {
		failed = errors.Join(failed, book.SetCellValue("Sheet1", cell, value))
	}
	_, newErr := book.NewSheet("Old")
	failed = errors.Join(failed, newErr, book.SetCellStyle("Sheet1", "B2", "B2", style("d mmm yyyy")), book.SetCellStyle("Sheet1", "B3", "B3", style("m/d/yyyy")),
		book.SetCellStyle("Sheet1", "C2", "C2", style("h:mm AM/PM")), book.SetCellStyle("Sheet1", "F2", "F3", style("000-0000")),
		book.MergeCell("Sheet1", "E2", "E3"), book.SetRowVisible("Sheet1", 3, false), book.SetColVisible("Sheet1", "D", false),
		book.SetSheetVisible("Old", false), book.SetCellFormula("Sheet1", "A4", "A3+1"), book.SetCellValue("Sheet1", "B4", day+2))
	path := filepath.Join(t.TempDir(), "desk.xlsx")
	if err := errors.Join(failed, book.SaveAs(path)); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestDeskSheet(t *testing.T) {
	profile := write(t, "p.toml", "[source]\ndate_order = \"mdy\"\ndecimal = \",\"\nthousands = \".\"\nfill_down = [\"Make\"]\nskip = [{ column = \"RO\", matches = '^$' }]\n"+
		plainJobs+"opened_at = { columns = [\"In\", \"At\"] }\nodometer_km = \"Odo\"\nmake = \"Make\"\nclaim_no = \"Phone\"\n")
	for _, date1904 := range []bool{false, true} {
		h := emptyHistory(t)
		result := imported(t, h, Options{Files: []string{deskSheet(t, date1904)}, Profile: profile})
		want := "1 2026-03-09 14:05:00 1234.567 Orlane 5551234, 2 2026-03-10 15:00:00 1234.5 Orlane 5551234"
		got := one(t, h, "select string_agg(concat_ws(' ', job_no, opened_at, odometer_km, make, claim_no), ', ' order by job_no) from jobs")
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("1904 %v: %s %v", date1904, diff, faultLines(t, h))
		}
		told := strings.Join(result.Notices, "\n")
		for _, part := range []string{"hidden rows: 1;", `the column "Odo" is hidden`, "Old: the sheet is hidden and was not read", "rows left out by the profile's skip: 1"} {
			if !strings.Contains(told, part) {
				t.Errorf("nothing told of %q: %s", part, told)
			}
		}
	}
}

// A bare number in a workbook is a day where it can be one of our time, and never a year taken for a day of 1905.
func TestBareNumbersInASheet(t *testing.T) {
	h := emptyHistory(t)
	imported(t, h, Options{Files: []string{asSheet(t, "RO,In\n1,46090\n2,2026\n3,46090.5\n")}, Profile: write(t, "p.toml", plainJobs+oneDay)})
	if diff := cmp.Diff([]string{`list.xlsx Sheet1!B3: In "2026" is not a date`}, faultLines(t, h)); diff != "" {
		t.Error(diff)
	}
	if got := one(t, h, when); got != "2026-03-09 00:00:00, 2026-03-09 12:00:00" {
		t.Error(got)
	}
}

// A formula counts as the value that was last computed for it. LibreOffice computes on saving; excelize does not, so the
// value is put into the sheet by hand.
func TestFormulasAreReadAsTheirCachedValues(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	failed := errors.Join(book.SetSheetRow("Sheet1", "A1", &[]any{"RO", "In"}), book.SetCellValue("Sheet1", "B2", "2026-03-09"),
		book.SetCellValue("Sheet1", "A2", 41), book.SetCellFormula("Sheet1", "A2", "40+1"))
	path := filepath.Join(t.TempDir(), "list.xlsx")
	if err := errors.Join(failed, book.SaveAs(path)); err != nil {
		t.Fatal(err)
	}
	h := emptyHistory(t)
	imported(t, h, Options{Files: []string{path}, Profile: write(t, "p.toml", plainJobs+oneDay)})
	if got := one(t, h, "select job_no from jobs"); got != "41" {
		t.Errorf("job_no is %s %v", got, faultLines(t, h))
	}
}

// Source: ECMA-376 part 1, 18.17.4.1, serials of both systems and fractions in 20_sha_merkle_csv_dates.json, as numbers in
// a CSV file whose profile names the system. 60 is a day that the 1900 system has and the calendar has not.
func TestSerialsInText(t *testing.T) {
	var published struct {
		Excel struct {
			System1900 [][]any `json:"system_1900"`
			System1904 [][]any `json:"system_1904"`
			Fraction   [][]any
		}
	}
	reference(t, "20_sha_merkle_csv_dates.json", &published)
	for system, pairs := range map[string][][]any{"1900": published.Excel.System1900, "1904": published.Excel.System1904} {
		content, want, rejected := "RO,In\n", []string{}, int64(0)
		for i, pair := range pairs {
			content += fmt.Sprintf("%03d,%s\n", i, number64(pair[0]))
			if day := pair[1].(string); len(day) == len("1900-01-01") {
				want = append(want, day)
			} else {
				rejected++
			}
		}
		h := emptyHistory(t)
		result := imported(t, h, Options{Files: []string{write(t, "list.csv", content)},
			Profile: write(t, "p.toml", "[source]\ndate_serials = \""+system+"\"\n"+plainJobs+oneDay)})
		if diff := cmp.Diff(strings.Join(want, " "), one(t, h, "select string_agg(opened_at::date::varchar, ' ' order by job_no) from jobs")); diff != "" || len(want) < 9 {
			t.Errorf("%s: %s", system, diff)
		}
		if result.Files[0].Rejected != rejected {
			t.Errorf("%s: %d rejected, want %d: %v", system, result.Files[0].Rejected, rejected, faultLines(t, h))
		}
	}
	h := emptyHistory(t)
	for _, macros := range []string{"intake/readings", "intake/foreign_readings"} {
		if err := h.Exec(t.Context(), macros, nil); err != nil {
			t.Fatal(err)
		}
	}
	for _, pair := range published.Excel.Fraction {
		clock := pair[1].(string)[max(0, len(pair[1].(string))-8):]
		serial := pair[0].(float64)
		if serial < 1 {
			serial += 45292
		}
		if got := reading(t, h, fmt.Sprintf("moment_text('%v', '', '1900')", serial)); got != "2024-01-01 "+clock {
			t.Errorf("%v is %s, want %s", pair[0], got, clock)
		}
	}
}

func number64(value any) string {
	text, err := json.Marshal(value)
	if err != nil {
		panic(err) // it came from JSON
	}
	return string(text)
}

// Source: ISO 8601. Moments with an offset, from the tz transitions in 20_sha_merkle_csv_dates.json, are read whatever
// order the profile names for dates; a week date, which the record layout does not have, is none.
func TestISOMomentsInAProfile(t *testing.T) {
	var published struct {
		DST     []struct{ Zone, Before, After string }
		ISOWeek [][]string `json:"iso_week"`
	}
	reference(t, "20_sha_merkle_csv_dates.json", &published)
	content, want := "RO,In\n", []string{}
	for i, c := range published.DST {
		content += fmt.Sprintf("%03d,%s\n", i, c.Before)
		want = append(want, c.Before[:10]+" "+c.Before[11:19])
	}
	for i, week := range published.ISOWeek {
		content += fmt.Sprintf("w%d,%s\n", i, week[1])
	}
	h := emptyHistory(t)
	result := imported(t, h, Options{Files: []string{write(t, "list.csv", content)}, Profile: write(t, "p.toml", mdyJobs+oneDay)})
	if diff := cmp.Diff(strings.Join(want, ", "), one(t, h, when)); diff != "" || len(want) < 10 {
		t.Error(diff)
	}
	if result.Files[0].Rejected != int64(len(published.ISOWeek)) {
		t.Errorf("%+v", result.Files[0])
	}
}
