package intake

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/intake/source"
)

const references = "../../testdata/reference/"

// reference reads a file of published values.
func reference(t testing.TB, name string, into any) {
	t.Helper()
	content, err := os.ReadFile(references + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(content, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// records reads delimited text whole.
func records(text string) ([][]string, error) {
	lex := source.NewLexer(strings.NewReader(text), ',')
	all := [][]string{}
	for {
		err := lex.Next()
		if err == io.EOF {
			return all, nil
		}
		if err != nil {
			return all, err
		}
		if lex.Misquoted {
			return all, fmt.Errorf("text after a closing quote")
		}
		var fields []string
		for _, field := range lex.Fields {
			fields = append(fields, string(field))
		}
		all = append(all, fields)
	}
}

// Source: RFC 4180, section 2, cases in 20_sha_merkle_csv_dates.json. A bare quote in an unquoted field, which the RFC
// does not allow, is kept as written: shops write 15" for inches.
func TestLexerReadsRFC4180(t *testing.T) {
	var published struct {
		RFC4180 []struct {
			Name, Text string
			Records    [][]string
			Error      bool
		}
	}
	reference(t, "20_sha_merkle_csv_dates.json", &published)
	for _, c := range published.RFC4180 {
		got, err := records(c.Text)
		switch {
		case c.Name == "error: bare quote in unquoted field":
			if diff := cmp.Diff([][]string{{`a"b`, "c"}}, got); diff != "" || err != nil {
				t.Errorf("%s: %s %v", c.Name, diff, err)
			}
		case c.Error && err == nil:
			t.Errorf("%s: read without an error", c.Name)
		case !c.Error:
			if diff := cmp.Diff(c.Records, got); diff != "" || err != nil {
				t.Errorf("%s: %s %v", c.Name, diff, err)
			}
		}
	}
	if len(published.RFC4180) < 10 {
		t.Error("the cases are not there")
	}
}

// Source: csv-spectrum 2.0.0 (npm), one JSON object a record.
func TestLexerReadsSpectrum(t *testing.T) {
	files, err := filepath.Glob(references + "csv-spectrum/csvs/*.csv")
	if err != nil || len(files) < 10 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".csv")
		content, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var want []map[string]string
		reference(t, "csv-spectrum/json/"+name+".json", &want)
		rows, err := records(string(content))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got := []map[string]string{}
		for _, row := range rows[1:] {
			object := map[string]string{}
			for i, field := range row {
				object[rows[0][i]] = field
			}
			got = append(got, object)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// Source: ECMA-376 part 1, 18.17.4.1, serials of both epochs in 20_sha_merkle_csv_dates.json. 60 is the day that the
// 1900 system has and the calendar has not; below it that system is a day behind the count from 1899-12-30.
func TestWorkbookDates(t *testing.T) {
	var published struct {
		Excel map[string]json.RawMessage
	}
	reference(t, "20_sha_merkle_csv_dates.json", &published)
	for system, date1904 := range map[string]bool{"system_1900": false, "system_1904": true} {
		var pairs [][]any
		if err := json.Unmarshal(published.Excel[system], &pairs); err != nil || len(pairs) < 9 {
			t.Fatal(system, err)
		}
		for _, pair := range pairs {
			serial, day := pair[0].(float64), pair[1].(string)
			if system == "system_1900" && serial == 60 {
				continue
			}
			if got := source.MomentText(fmt.Sprint(int64(serial)), "", date1904); got != day {
				t.Errorf("%s %v is %s, want %s", system, serial, got, day)
			}
		}
	}
	if got := source.MomentText("46090.586805555555", "3/9/26 14:05", false); got != "2026-03-09 14:05:00" {
		t.Errorf("a moment is %s", got)
	}
}

// Source: tz database 2025b, transitions in 20_sha_merkle_csv_dates.json: the second before each and the moment itself.
func TestOffsetsAreConvertedAcrossTransitions(t *testing.T) {
	var published struct {
		DST []struct{ Zone, Before, After string }
	}
	reference(t, "20_sha_merkle_csv_dates.json", &published)
	if len(published.DST) < 10 {
		t.Fatal("the transitions are not there")
	}
	for _, c := range published.DST {
		h := emptyHistory(t)
		rows := "shop,job_no,opened_at,reason\n"
		for i, written := range []string{c.Before, c.After, utcOf(t, c.Before), c.After[:10] + " " + c.After[11:19]} {
			rows += fmt.Sprintf("a,%d,%s,recheck\n", i, written)
		}
		imported(t, h, Options{Files: []string{write(t, "jobs.csv", rows)}, Zone: c.Zone})
		wall := func(written string) string { return written[:10] + " " + written[11:19] }
		want := strings.Join([]string{wall(c.Before), wall(c.After), wall(c.Before), wall(c.After)}, ", ")
		if got := one(t, h, "select string_agg(opened_at::varchar, ', ' order by job_no) from jobs"); got != want {
			t.Errorf("%s: got %s, want %s", c.Zone, got, want)
		}
	}
}

// utcOf writes the same instant with Z.
func utcOf(t testing.TB, written string) string {
	t.Helper()
	at, err := time.Parse(time.RFC3339, written)
	if err != nil {
		t.Fatal(err)
	}
	return at.UTC().Format(time.RFC3339)
}
