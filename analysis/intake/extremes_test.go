package intake

import (
	"archive/zip"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/intake/draft"
	"plumbline/analysis/intake/source"
)

// refusal is the first line of what an import says that must be refused.
func refusal(t *testing.T, path string) string {
	t.Helper()
	_, err := Import(context.Background(), emptyHistory(t), Options{Files: []string{path}, Now: now})
	return refusalOf(t, err)
}

// refusalOf is the first line of a refusal, the file without its folder.
func refusalOf(t *testing.T, err error) string {
	t.Helper()
	var refused *source.Refusal
	if !errors.As(err, &refused) {
		t.Fatalf("got %v, want a refusal", err)
	}
	refused.File = filepath.Base(refused.File)
	first, _, _ := strings.Cut(refused.Error(), "\n")
	return first
}

func TestHugeFieldIsRefused(t *testing.T) {
	path := write(t, "jobs.csv", jobsHeader+"a,1,2026-03-09,recheck,,,,\nb,2,2026-03-09,recheck,\""+strings.Repeat("x", 10<<20)+"\",,,\n")
	if got := refusal(t, path); got != "jobs.csv:3: the record is longer than a million characters" {
		t.Error(got)
	}
}

func TestMillionEmptyColumnsAreNoColumns(t *testing.T) {
	h := emptyHistory(t)
	commas := strings.Repeat(",", 1_000_000)
	result := imported(t, h, Options{Files: []string{write(t, "jobs.csv", strings.TrimSpace(jobsHeader)+commas+"\na,1,2026-03-09,recheck,,,,"+commas+"\n")}})
	if result.Files[0].Added != 1 {
		t.Errorf("%+v %v", result.Files[0], faultLines(t, h))
	}
}

func TestZipBombIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "jobs.xlsx")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	archive := zip.NewWriter(file)
	entry, err := archive.Create("xl/worksheets/sheet1.xml")
	if err != nil {
		t.Fatal(err)
	}
	zeros := make([]byte, 1<<20)
	for range 64 {
		if _, err := entry.Write(zeros); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(archive.Close(), file.Close()); err != nil {
		t.Fatal(err)
	}
	profile := write(t, "p.toml", plainJobs+oneDay)
	_, importErr := Import(context.Background(), emptyHistory(t), Options{Files: []string{path}, Profile: profile, Now: now})
	_, draftErr := draft.Read(context.Background(), path)
	for way, got := range map[string]string{"layout": refusal(t, path), "profile": refusalOf(t, importErr), "draft": refusalOf(t, draftErr)} {
		if got != "jobs.xlsx: has a part that unzips to 64 MB, more than 200 times what it takes in the file" {
			t.Errorf("%s: %s", way, got)
		}
	}
}

// The longest cell that a workbook can hold is taken whole; hidden sheets and columns are told.
func TestWorkbookLimitsAndHiddenParts(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	long := strings.Repeat("w", 32767)
	for cell, value := range map[string]any{"A1": "shop", "B1": "job_no", "C1": "opened_at", "D1": "reason", "E1": "complaint",
		"A2": "a", "B2": 7, "C2": 46090, "D2": "recheck", "E2": long} {
		if err := book.SetCellValue("Sheet1", cell, value); err != nil {
			t.Fatal(err)
		}
	}
	_, newErr := book.NewSheet("Notes")
	if err := errors.Join(newErr, book.SetColVisible("Sheet1", "E", false), book.SetCellValue("Notes", "A1", "call back"),
		book.SetSheetVisible("Notes", false)); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "book.xlsx")
	if err := book.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	h := emptyHistory(t)
	result := imported(t, h, Options{Files: []string{path}})
	if got := one(t, h, "select job_no || ' ' || opened_at || ' ' || date_only || ' ' || length(complaint) from jobs"); got != "7 2026-03-09 00:00:00 opened_at 32767" {
		t.Error(got)
	}
	told := strings.Join(result.Notices, "\n")
	if !strings.Contains(told, `the column "complaint" is hidden`) || !strings.Contains(told, "Notes: skipped") {
		t.Error(told)
	}
}
