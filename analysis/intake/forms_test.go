package intake

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

const small = "../../testdata/history-small"

// smallKinds are the kinds that the small history has.
var smallKinds = slices.DeleteFunc(layout.KindNames(), func(kind string) bool { return kind == "actions" })

// smallRows reads every third row of a file of the small history with the standard library's reader: eleven forms of all
// of it would take a minute, and odd rows are dense in it.
func smallRows(t testing.TB, kind string) [][]string {
	t.Helper()
	file, err := os.Open(filepath.Join(small, kind+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := all[:1:1]
	for i := 1; i < len(all); i += 3 {
		rows = append(rows, all[i])
	}
	return rows
}

// contents gives every record of the history as text, without its file and without how a number was written.
func contents(t testing.TB, h *history.History) map[string][]string {
	t.Helper()
	all := map[string][]string{}
	for i := range layout.Kinds {
		kind := &layout.Kinds[i]
		exclude := "from_file"
		if kind.Name == "measurements" {
			exclude = "from_file, value_written"
		}
		rows, err := history.SelectStatement[struct{ Text string }](context.Background(), h, history.Statement{Name: "contents",
			SQL: fmt.Sprintf("select row_text as text from (select r::varchar as row_text from (select * exclude (%s) from %s) as r) order by 1",
				exclude, kind.Name)}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows {
			all[kind.Name] = append(all[kind.Name], strings.ReplaceAll(row.Text, "\r\n", "\n"))
		}
	}
	return all
}

// The same records in another form are the same history.
func TestFormsGiveTheSameHistory(t *testing.T) {
	folder := t.TempDir()
	withCommas(t, folder)
	plain := newHistory(t)
	imported(t, plain, Options{Files: []string{folder}})
	want := contents(t, plain)
	forms := map[string]func(*testing.T, string){
		"shuffled": shuffled, "semicolons, CRLF": semicolons, "tabs, CR": carriageReturns, "UTF-16": utf16, "UTF-8 BOM": withBOM,
		"workbook": asWorkbook, "workbook of 1904": asWorkbook1904, "JSON": asJSON, "NDJSON": asNDJSON, "JSON by kind": asJSONByKind,
		"Parquet": asParquet,
	}
	for name, write := range forms {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			write(t, folder)
			h := newHistory(t)
			result := imported(t, h, Options{Files: []string{folder}})
			for _, balance := range result.Files {
				if balance.Rejected != 0 || balance.Read != int64(len(smallRows(t, balance.Kind))-1) {
					t.Errorf("%+v %v", balance, faultLines(t, h))
				}
			}
			if diff := cmp.Diff(want, contents(t, h)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// eachKind writes one file a kind.
func eachKind(t *testing.T, folder, ending string, render func(rows [][]string) []byte) {
	t.Helper()
	for _, kind := range smallKinds {
		if err := os.WriteFile(filepath.Join(folder, "2026-03_"+kind+ending), render(smallRows(t, kind)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

func delimitedText(rows [][]string, comma rune, end string) []byte {
	var out strings.Builder
	for _, row := range rows {
		for i, field := range row {
			if i > 0 {
				out.WriteRune(comma)
			}
			out.WriteString(`"` + strings.ReplaceAll(field, `"`, `""`) + `"`)
		}
		out.WriteString(end)
	}
	return []byte(out.String())
}

func shuffled(t *testing.T, folder string) {
	dice := rand.New(rand.NewPCG(1, 2))
	eachKind(t, folder, ".csv", func(rows [][]string) []byte {
		order := dice.Perm(len(rows[0]))
		dice.Shuffle(len(rows)-1, func(i, j int) { rows[i+1], rows[j+1] = rows[j+1], rows[i+1] })
		moved := make([][]string, len(rows))
		for i, row := range rows {
			for _, column := range order {
				moved[i] = append(moved[i], row[column])
			}
		}
		for i := range moved[0] {
			moved[0][i] = strings.ToUpper(moved[0][i])
		}
		return delimitedText(moved, ',', "\n")
	})
}

func withCommas(t *testing.T, folder string) {
	eachKind(t, folder, ".csv", func(rows [][]string) []byte { return delimitedText(rows, ',', "\n") })
}

func semicolons(t *testing.T, folder string) {
	eachKind(t, folder, ".csv", func(rows [][]string) []byte { return delimitedText(rows, ';', "\r\n") })
}

func carriageReturns(t *testing.T, folder string) {
	eachKind(t, folder, ".txt", func(rows [][]string) []byte { return delimitedText(rows, '\t', "\r") })
}

func withBOM(t *testing.T, folder string) {
	eachKind(t, folder, ".csv", func(rows [][]string) []byte { return append(source.UTF8Mark, delimitedText(rows, '|', "\n")...) })
}

func utf16(t *testing.T, folder string) {
	eachKind(t, folder, ".csv", func(rows [][]string) []byte {
		text, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().Bytes(delimitedText(rows, ',', "\n"))
		if err != nil {
			t.Fatal(err)
		}
		return text
	})
}

func asNDJSON(t *testing.T, folder string) {
	eachKind(t, folder, ".ndjson", func(rows [][]string) []byte {
		var out strings.Builder
		for _, object := range jsonObjects(t, rows) {
			out.WriteString(object + "\n")
		}
		return []byte(out.String())
	})
}

func asJSON(t *testing.T, folder string) {
	eachKind(t, folder, ".json", func(rows [][]string) []byte {
		return []byte("[\n" + strings.Join(jsonObjects(t, rows), ",\n") + "\n]")
	})
}

func asJSONByKind(t *testing.T, folder string) {
	var arrays []string
	for _, kind := range smallKinds {
		arrays = append(arrays, fmt.Sprintf("%q: [%s]", kind, strings.Join(jsonObjects(t, smallRows(t, kind)), ",")))
	}
	if err := os.WriteFile(filepath.Join(folder, "all.json"), []byte("{"+strings.Join(arrays, ",\n")+"}"), 0o600); err != nil {
		t.Fatal(err)
	}
}

// jsonObjects leaves out what is empty, and writes the numbers of a number's column as such.
func jsonObjects(t *testing.T, rows [][]string) []string {
	t.Helper()
	var objects []string
	for _, row := range rows[1:] {
		object := map[string]any{}
		for i, field := range row {
			name := strings.ToLower(rows[0][i])
			switch {
			case field == "":
			case name == "value" || name == "attempt_no" || name == "odometer_km":
				object[name] = json.Number(strings.TrimSpace(field))
			default:
				object[name] = field
			}
		}
		text, err := json.Marshal(object)
		if err != nil {
			t.Fatal(err)
		}
		objects = append(objects, string(text))
	}
	return objects
}

func asParquet(t *testing.T, folder string) {
	h := newHistory(t)
	plain := t.TempDir()
	withCommas(t, plain)
	for _, kind := range smallKinds {
		_, err := h.Run(context.Background(), history.Statement{Name: "parquet", SQL: fmt.Sprintf(
			"copy (select * from read_csv('%s/2026-03_%s.csv', all_varchar=true, delim=',', quote='\"', escape='\"', header=true)) to '%s/%s.parquet' (format parquet)", plain, kind, folder, kind)}, nil)
		if err != nil {
			t.Fatal(err)
		}
	}
}

// Windows-1252 is what is left when it is not UTF-8; the import says so.
func TestWindows1252(t *testing.T) {
	text, err := charmap.Windows1252.NewEncoder().String("shop,job_no,opened_at,reason,complaint\na,1,2026-03-09,recheck,límite – “señal”\n")
	if err != nil {
		t.Fatal(err)
	}
	h := newHistory(t)
	result := imported(t, h, Options{Files: []string{write(t, "jobs.csv", text)}})
	if got := one(t, h, "select complaint from jobs"); got != "límite – “señal”" || result.Files[0].Encoding != source.Windows1252 {
		t.Errorf("%q read as %s", got, result.Files[0].Encoding)
	}
}
