package wide

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/encoding/charmap"

	"plumbline/cmd/scenario/invent"
	"plumbline/cmd/scenario/record"
)

// written writes the list and reads it back as text and as rows.
func written(t *testing.T) (string, [][]string) {
	t.Helper()
	dir := t.TempDir()
	if err := Write(dir, 25); err != nil {
		t.Fatal(err)
	}
	bytes, err := os.ReadFile(filepath.Join(dir, FileName))
	if err != nil {
		t.Fatal(err)
	}
	text, err := charmap.Windows1252.NewDecoder().String(string(bytes))
	if err != nil {
		t.Fatal(err)
	}
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comma = ';'
	rows, err := reader.ReadAll() // also wants as many fields in each row
	if err != nil {
		t.Fatal(err)
	}
	return text, rows
}

func TestListIsMessy(t *testing.T) {
	text, rows := written(t)
	if crlf, lf := strings.Count(text, "\r\n"), strings.Count(text, "\n"); crlf != lf || crlf == 0 {
		t.Errorf("%d of %d lines end in CRLF", crlf, lf)
	}
	for _, want := range []string{"–", "°", "½", "é", "W/S R&R", "board + drive", " of ", "none"} {
		if !strings.Contains(text, want) {
			t.Errorf("the list has no %q", want)
		}
	}
	if rows[3][1] != "Job" || rows[4][1] != "RO #" {
		t.Errorf("header rows begin %q and %q", rows[3][:3], rows[4][:3])
	}
	if total := rows[len(rows)-2]; total[0] != "Total" || total[2] != "150 jobs" {
		t.Errorf("totals are %q", total[:4])
	}
}

// cells returns the job rows by header.
func cells(t *testing.T) []map[string]string {
	_, rows := written(t)
	var jobs []map[string]string
	for _, row := range rows[5:] {
		if row[1] == "" {
			continue
		}
		job := map[string]string{}
		for i, name := range rows[4] {
			job[name] = row[i]
		}
		jobs = append(jobs, job)
	}
	return jobs
}

const fault = `[A-Za-z ]+: [0-9A-Z-]+ \((active|pending|stored|unknown)\)`

var forms = map[string]*regexp.Regexp{
	"RO #":               regexp.MustCompile(`^SM-\d{4}$`),
	"Date In":            regexp.MustCompile(`^\d\d/\d\d/2026$`),
	"Time In":            regexp.MustCompile(`^\d{1,2}:\d\d [AP]M$`),
	"VIN #":              regexp.MustCompile(`^[0-9A-Za-z]{3} ?[0-9A-Za-z]{6} ?[0-9A-Za-z]{8}$`),
	"Make / Model":       regexp.MustCompile(`^\w+ \w+$`),
	"Odo (mi)":           regexp.MustCompile(`^(\d{1,3}(\.\d{3})?)?$`),
	"Job type":           regexp.MustCompile(`^.+$`),
	"Systems calibrated": regexp.MustCompile(`^([a-z0-9A-Z ]+(; [a-z0-9A-Z ]+)*)?$`),
	"Result":             regexp.MustCompile(`^(OK|NG|stopped)?$`),
	"1st result":         regexp.MustCompile(`^(NG|stopped)?$`),
	"Target mm":          regexp.MustCompile(`^(1\.\d{3},\d)?$`),
	"LF in":              regexp.MustCompile(`^(\d\d,\d\d)?$`),
	"Tires psi":          regexp.MustCompile(`^(\d\d/\d\d/\d\d/\d\d)?$`),
	"Batt.":              regexp.MustCompile(`^(1\d,\d V)?$`),
	"Pre modules":        regexp.MustCompile(`^(\d{3} of \d{3})?$`),
	"Pre codes":          regexp.MustCompile(`^(none|` + fault + `(; ` + fault + `)*)?$`),
	"RT ok":              regexp.MustCompile(`^[YN]?$`),
	"Files":              regexp.MustCompile(`^(SM-\d{4}_[a-z0-9-]+\.(pdf|jpg)(; SM-\d{4}_[a-z0-9-]+\.(pdf|jpg))*)?$`),
}

func TestCellsHaveTheirForm(t *testing.T) {
	filled := map[string]int{}
	jobs := cells(t)
	for _, job := range jobs {
		for name, form := range forms {
			if value, found := job[name]; !found || !form.MatchString(value) {
				t.Errorf("%s: %s is %q", job["RO #"], name, value)
			} else if value != "" {
				filled[name]++
			}
		}
	}
	if len(jobs) != 150 {
		t.Errorf("%d jobs, want 150", len(jobs))
	}
	for _, c := range columns {
		if n := filled[c.name]; forms[c.name] != nil && n < 3 {
			t.Errorf("%s is filled in %d jobs only", c.name, n)
		}
	}
}

// The first try lies before the session, and only where it did not complete.
func TestFirstTryComesFirst(t *testing.T) {
	tries := 0
	for _, v := range invent.Newcomer(25, jobs) {
		s := sessionOf(v)
		if s.firstTry == nil {
			continue
		}
		tries++
		if a, found := s.camera(); !found || !s.firstTry.StartedAt.Before(s.start) || s.firstTry.Outcome == "completed" || a.StartedAt.Before(s.start) {
			t.Errorf("%s: first try %v, session from %v", v.Job.No, s.firstTry, s.start)
		}
	}
	if tries < 3 {
		t.Errorf("%d first tries, want some", tries)
	}
}

func TestSessionJoinsStages(t *testing.T) {
	static := record.Attempt{System: "front_camera", No: 1, Method: "static", Outcome: "completed", Bay: "bay 1"}
	dynamic := record.Attempt{System: "front_camera", No: 2, Method: "dynamic", Outcome: "completed"}
	s := sessionOf(&record.Visit{Attempts: []record.Attempt{static, dynamic}})
	if len(s.tasks) != 1 || s.tasks[0].Method != "static_dynamic" || s.tasks[0].Bay != "bay 1" || s.firstTry != nil {
		t.Errorf("a static and a dynamic stage give %+v", s)
	}
}

func TestEveryWordHasItsDeskWord(t *testing.T) {
	var taken []string
	for _, list := range []map[string]string{reasons, sources, brackets, methods, outcomes, systems} {
		taken = taken[:0]
		for word, desk := range list {
			if desk == "" || slices.Contains(taken, desk) {
				t.Errorf("%s is %q, which is empty or taken", word, desk)
			}
			taken = append(taken, desk)
		}
	}
}

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{{48210, 0, "48.210"}, {1498.36, 1, "1.498,4"}, {-0.31, 2, "-0,31"}, {999, 0, "999"}, {1234567.5, 1, "1.234.567,5"}, {0, 2, "0,00"}} {
		if got := decimal(c.x, c.decimals); got != c.want {
			t.Errorf("%v: %s, want %s", c.x, got, c.want)
		}
	}
}
