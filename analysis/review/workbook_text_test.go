package review

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/quality"
)

// ownWords are texts of records that a spreadsheet could run, or that a file cannot hold, with what a cell shows for
// them. Source: ways to inject formulas: OWASP, CSV Injection; what XML can hold: XML 1.0, production 2.
var ownWords = map[string]string{
	"=1+1": "=1+1", "+1+1": "+1+1", "-1+1": "-1+1", "@SUM(1,1)": "@SUM(1,1)", "\t=1+1": "\t=1+1", "=cmd|' /C calc'!A0": "=cmd|' /C calc'!A0",
	`=HYPERLINK("http://example.com","x")`: `=HYPERLINK("http://example.com","x")`, "007": "007", "1E5": "1E5", "2024-01-02": "2024-01-02",
	"TRUE": "TRUE", "a\x01b\x1fc": "a[U+0001]b[U+001F]c", "_x0041_": "_x0041_", "<b>&amp;": "<b>&amp;", " two  spaces ": " two  spaces ",
	"two\nlines": "two\nlines",
}

func reviewOfWords(t *testing.T) (Review, []string) {
	t.Helper()
	r := mustReview(t)
	r.Findings = nil
	var words []string
	for word := range ownWords {
		words = append(words, word)
	}
	slices.Sort(words)
	for _, word := range words {
		r.Findings = append(r.Findings, quality.Finding{Finding: "f", Kind: "comeback", Severity: "low", Shop: "birch", JobNo: word, Detail: &word})
	}
	return r, words
}

// No text of a record is a formula, here or in the program that recalculates the workbook.
func TestRecordsStayText(t *testing.T) {
	r, words := reviewOfWords(t)
	content, written := workbookOf(t, r)
	for name, f := range map[string]*excelize.File{"written": written, "recalculated": recalculated(t, content)} {
		for i, word := range words {
			at := cellAt(t, "G", i+5)
			text, err := f.GetCellFormula("Findings", at)
			check(t, err)
			shown, err := f.GetCellValue("Findings", at, excelize.Options{RawCellValue: true})
			check(t, err)
			if name == "recalculated" { // that program trims nothing but shows a tab as it likes
				shown = strings.ReplaceAll(shown, "\r", "")
			}
			if text != "" || shown != ownWords[word] {
				t.Errorf("%s: %q is shown as %q, formula %q", name, word, shown, text)
			}
		}
	}
}

// What was a moment in the records is a date of the spreadsheet, to the second.
func TestDatesAreDates(t *testing.T) {
	r := mustReview(t)
	_, f := workbookOf(t, r)
	for i, finding := range r.Findings {
		if finding.At == nil {
			continue
		}
		number, err := f.GetCellValue("Findings", cellAt(t, "M", i+5), excelize.Options{RawCellValue: true})
		check(t, err)
		if got := dateOf(t, number); got.Sub(*finding.At).Abs() > time.Second {
			t.Errorf("finding %d: %s is written as %s (%s)", i, finding.At, got, number)
		}
		shown, err := f.GetCellValue("Findings", cellAt(t, "M", i+5))
		check(t, err)
		if want := finding.At.Format("2006-01-02 15:04"); shown != want {
			t.Errorf("finding %d: %s is shown as %q", i, want, shown)
		}
	}
	early := time.Date(1899, 5, 1, 0, 0, 0, 0, time.UTC)
	r.Findings = []quality.Finding{{Finding: "f", Kind: "comeback", Severity: "low", At: &early}}
	_, f = workbookOf(t, r)
	if shown, err := f.GetCellValue("Findings", "M5"); err != nil || shown != "1899-05-01 00:00" {
		t.Errorf("a day before the spreadsheet's calendar is shown as %q, %v", shown, err)
	}
}

func cellAt(t *testing.T, column string, row int) string {
	t.Helper()
	at, err := excelize.JoinCellName(column, row)
	check(t, err)
	return at
}
