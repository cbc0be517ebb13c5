package testkit

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// ReadJSON reads a file of published values.
func ReadJSON[V any](t testing.TB, name string) V {
	t.Helper()
	var v V
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// ReadCSV reads a CSV file that has rows, each by the names of its columns.
func ReadCSV(t testing.TB, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil || len(records) < 2 {
		t.Fatalf("%s: %d records, %v", name, len(records), err)
	}
	rows := make([]map[string]string, len(records)-1)
	for i, record := range records[1:] {
		rows[i] = map[string]string{}
		for j, name := range records[0] {
			rows[i][name] = record[j]
		}
	}
	return rows
}

// Nasty are names and texts that break files, cells and pages.
var Nasty = []string{"a/b", `a\b`, `say "hi"`, "it's", "'", "''", "line\nbreak", "\u202egnp.exe", "\U0001F600", "../../etc/passwd", "..", ".",
	"CON", "con.txt", "LPT1.pdf", "aux", "nul.tar.gz", strings.Repeat("long", 125), "=1+1", "+1", "-1", "@x", "\tx", "＝1", "a,b;c",
	"", " ", "trailing.", "<script>", "COM¹", "ok-name_1.pdf"}
