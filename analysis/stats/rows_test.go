package stats

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// historyTolerance is the relative distance that the figures are stated to agree within.
const historyTolerance = 1e-6

// row is one line of a table by column name.
type row map[string]string

func readRows(t *testing.T, path string) []row {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	for _, line := range lines[1:] {
		r := row{}
		for i, name := range lines[0] {
			r[name] = line[i]
		}
		rows = append(rows, r)
	}
	if len(rows) == 0 {
		t.Fatalf("%s holds no rows", path)
	}
	return rows
}

func (r row) count(t *testing.T, column string) int64 {
	t.Helper()
	n, err := strconv.ParseInt(r[column], 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// same compares a figure with the column of that name; an empty column means that there is none.
func (r row) same(t *testing.T, column string, got float64, defined bool) {
	t.Helper()
	if r[column] == "" || !defined {
		if defined != (r[column] != "") {
			t.Errorf("%s: got %v (defined: %v), want %q", column, got, defined, r[column])
		}
		return
	}
	want, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatal(err)
	}
	if !isClose(got, want, historyTolerance) {
		t.Errorf("%s: got %.12g, want %.12g", column, got, want)
	}
}

// isClose compares within a relative distance; two values below 1e-12 are the same.
func isClose(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Max(math.Abs(got), math.Abs(want))+1e-12
}
