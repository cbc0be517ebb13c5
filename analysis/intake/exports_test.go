package intake

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
)

// Exports as unlike each other as shops are, each with what it says in truth: a log of attempts in German with the newest
// first, a diary of rows of several kinds with attempts of many rows, nested JSON, a wide list, a workbook kept by hand with a
// sheet a month. With the questions answered each comes in as it is in truth, in every field, and twice the same.
func TestExportsComeInAsTheyAre(t *testing.T) {
	folders, err := filepath.Glob("testdata/exports/*")
	if err != nil || len(folders) < 5 {
		t.Fatal(folders, err)
	}
	for _, folder := range folders {
		t.Run(filepath.Base(folder), func(t *testing.T) {
			export := exportIn(t, folder)
			text, err := os.ReadFile(filepath.Join(folder, "answers.txt"))
			if err != nil {
				t.Fatal(err)
			}
			drafted, path := draftedProfile(t, export, strings.Split(strings.TrimSpace(string(text)), "\n")...)
			if len(drafted.Questions) > 0 {
				t.Errorf("open: %v", keysOf(drafted))
			}
			got, want := emptyHistory(t), emptyHistory(t)
			first := imported(t, got, Options{Files: []string{export}, Profile: path})
			again := imported(t, got, Options{Files: []string{export}, Profile: path})
			truth, err := filepath.Glob(filepath.Join(folder, "*s.csv"))
			if err != nil {
				t.Fatal(err)
			}
			imported(t, want, Options{Files: slices.DeleteFunc(truth, func(name string) bool { return strings.HasSuffix(name, "export.csv") })})
			for i, balance := range first.Files {
				if balance.Rejected > 0 || again.Files[i].Unchanged != balance.Read {
					t.Errorf("%+v, again %+v: %v", balance, again.Files[i], faultLines(t, got))
				}
			}
			for i := range layout.Kinds {
				if diff := cmp.Diff(fieldsOf(t, want, &layout.Kinds[i]), fieldsOf(t, got, &layout.Kinds[i])); diff != "" {
					t.Errorf("%s: %s\n%s", layout.Kinds[i].Name, diff, drafted.TOML)
				}
			}
		})
	}
}

// fieldsOf gives the fields of all records of a kind as the layout has them; numbers that were given are none.
func fieldsOf(t *testing.T, h *history.History, kind *layout.Kind) []string {
	t.Helper()
	var names []string
	for _, column := range kind.Columns {
		name := column.Name
		if n := kind.Numbering(); n != nil && n.Owner == "" && name == n.Number {
			name = fmt.Sprintf("case when not coalesce(number_given, false) then %s end", name)
		}
		names = append(names, fmt.Sprintf("coalesce((%s)::varchar, '')", name))
	}
	days := "''"
	if kind.HasMoments() {
		days = "coalesce(date_only, '')"
	}
	return strings.Split(one(t, h, fmt.Sprintf("select coalesce(string_agg(line, chr(10) order by line), '') from (select concat_ws('|', %s, %s) as line from %s)",
		strings.Join(names, ", "), days, kind.Name)), "\n")
}

// exportIn is the export of a folder; the workbook is made.
func exportIn(t *testing.T, folder string) string {
	t.Helper()
	if filepath.Base(folder) == "months" {
		return monthsBook(t)
	}
	found, err := filepath.Glob(filepath.Join(folder, "export.*"))
	if err != nil || len(found) != 1 {
		t.Fatal(found, err)
	}
	return found[0]
}

// monthsBook is a workbook kept by hand: a sheet to read first, a sheet a month with a title, groups above the columns' names,
// the shop once in a merged cell, ditto marks, and numbers as text and as numbers.
func monthsBook(t *testing.T) string {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	day := func(d, h, m int) time.Time { return time.Date(2026, time.Month(d/100), d%100, h, m, 0, 0, time.UTC) }
	rows := map[string][][]any{
		"Leer": {{"Este libro lo lleva la recepción"}, {"No borrar hojas"}},
		"Enero": {{"Taller Olivar, enero"}, {}, {"Ficha", "", "", "", "", "", "Calibración", "", ""},
			{"Taller", "Nº orden", "Bastidor", "Kilómetros", "Entrada", "Motivo", "Sistema", "Inicio", "Resultado"},
			{"Olivar", "T-1", "1M8GDM9AXKP042788", "45.210,5", "03/01/2026", "luna", "cámara delantera", "03/01/2026 10:30", "correcto"},
			{"", "T-2", "1HGCM82633A004352", 1200, "04/01/2026", "chapa", "radar", "04/01/2026 9:15", "fallo"}},
		"Febrero": {{"Taller Olivar, febrero"}, {}, {"Ficha", "", "", "", "", "", "Calibración", "", ""},
			{"Taller", "Nº orden", "Bastidor", "Kilómetros", "Entrada", "Motivo", "Sistema", "Inicio", "Resultado"},
			{"Olivar", "T-3", "", "90.001", day(205, 0, 0), "luna", "cámara delantera", day(205, 12, 0), "repetida"},
			{"", "T-4", "", 815, `"`, "revisión", "", "", ""}},
	}
	var failed error
	for _, name := range []string{"Leer", "Enero", "Febrero"} {
		_, err := book.NewSheet(name)
		failed = errors.Join(failed, err)
		for i, cells := range rows[name] {
			failed = errors.Join(failed, book.SetSheetRow(name, fmt.Sprintf("A%d", i+1), &cells))
		}
	}
	style, err := book.NewStyle(&excelize.Style{CustomNumFmt: new("dd/mm/yyyy hh:mm")})
	alone, dayErr := book.NewStyle(&excelize.Style{CustomNumFmt: new("dd/mm/yyyy")})
	path := filepath.Join(t.TempDir(), "taller.xlsx")
	failed = errors.Join(failed, err, dayErr, book.SetCellStyle("Febrero", "H5", "H5", style), book.SetCellStyle("Febrero", "E5", "E5", alone),
		book.MergeCell("Enero", "A5", "A6"), book.MergeCell("Febrero", "A5", "A6"), book.DeleteSheet("Sheet1"), book.SaveAs(path))
	if failed != nil {
		t.Fatal(failed)
	}
	return path
}
