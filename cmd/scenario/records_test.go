package main

import (
	"compress/gzip"
	"encoding/csv"
	"strings"
	"sync"
	"testing"
	"time"

	"plumbline/analysis/layout"
	sampledata "plumbline/sample-data"
)

// row is one record of the sample, by column.
type row map[string]string

// sample reads the committed records, once for all tests.
var sample = sync.OnceValues(func() (map[string][]row, error) {
	all := map[string][]row{}
	for _, kind := range layout.Kinds {
		rows, err := readKind(kind)
		if err != nil {
			return nil, err
		}
		all[kind.Name] = rows
	}
	return all, nil
})

func readKind(kind layout.Kind) ([]row, error) {
	packed, err := sampledata.Records().Open(kind.Name + ".csv.gz")
	if err != nil {
		return nil, err
	}
	defer packed.Close()
	plain, err := gzip.NewReader(packed)
	if err != nil {
		return nil, err
	}
	lines, err := csv.NewReader(plain).ReadAll()
	if err != nil {
		return nil, err
	}
	rows := make([]row, len(lines)-1)
	for i, line := range lines[1:] {
		rows[i] = row{}
		for j, name := range lines[0] {
			rows[i][name] = line[j]
		}
	}
	return rows, nil
}

func records(t *testing.T, kind string) []row {
	t.Helper()
	all, err := sample()
	if err != nil {
		t.Fatal(err)
	}
	return all[kind]
}

// key joins the values of columns.
func (r row) key(columns ...string) string {
	parts := make([]string, len(columns))
	for i, column := range columns {
		parts[i] = r[column]
	}
	return strings.Join(parts, "|")
}

func (r row) job() string { return r.key("shop", "job_no") }

// at reads a timestamp that is known to be well formed.
func (r row) at(column string) time.Time {
	t, _ := timestamp(r[column])
	return t
}

// timestamp reads the forms of the record layout that the sample uses.
func timestamp(text string) (time.Time, bool) {
	for _, form := range []string{"2006-01-02 15:04", "2006-01-02 15:04:05", "2006-01-02"} {
		if t, err := time.Parse(form, text); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}
