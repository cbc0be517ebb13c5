package intake

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

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
			export, answers := exportIn(t, folder)
			text, err := os.ReadFile(answers)
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

// exportIn is the export of a folder and its answers; the workbook and its are those of the sample.
func exportIn(t *testing.T, folder string) (export, answers string) {
	t.Helper()
	if filepath.Base(folder) == "months" {
		return "../../sample-data/foreign/olivar-by-month.xlsx", "../../sample-data/foreign/olivar-answers.txt"
	}
	found, err := filepath.Glob(filepath.Join(folder, "export.*"))
	if err != nil || len(found) != 1 {
		t.Fatal(found, err)
	}
	return found[0], filepath.Join(folder, "answers.txt")
}
