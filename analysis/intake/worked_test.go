package intake

import (
	"context"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
)

// now is the clock of all tests.
var now = time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)

// newHistory is an empty history in memory.
func newHistory(t testing.TB) *history.History {
	t.Helper()
	h, err := history.InMemory(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.Close() })
	return h
}

// used is a history that tests use one after the other.
var used *history.History

// emptyHistory is the used history, emptied: as good as a new one, and there at once.
func emptyHistory(t testing.TB) *history.History {
	t.Helper()
	var err error
	if used == nil {
		if used, err = history.InMemory(context.Background()); err != nil {
			t.Fatal(err)
		}
	}
	tables := []string{"rejects", "import_files", "imports", "given_numbers", "renumbered"}
	for _, kind := range layout.KindNames() {
		tables = append(tables, kind, "superseded."+kind)
	}
	err = used.Change(context.Background(), func() error {
		for _, table := range tables {
			if _, err := used.Run(context.Background(), history.Statement{Name: "emptying", SQL: "delete from " + table}, nil); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return used
}

// imported runs an import that must not be refused.
func imported(t testing.TB, h *history.History, o Options) Result {
	t.Helper()
	o.Now, o.ToolVersion = now, "test"
	result, err := Import(context.Background(), h, o)
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// The rows of the nine files of testdata/history-small, counted by a CSV parser of another language (Python 3's csv).
var smallHistory = map[string]int64{
	"jobs": 934, "glass": 462, "calibrations": 1566, "measurements": 5334, "scans": 1704, "faults": 478,
	"road_tests": 801, "documents": 2284, "equipment_checks": 417,
}

func TestSmallHistoryIsTakenWhole(t *testing.T) {
	h := newHistory(t)
	first := imported(t, h, Options{Files: []string{"../../testdata/history-small"}})
	again := imported(t, h, Options{Files: []string{"../../testdata/history-small"}})
	for i, balance := range first.Files {
		rows := smallHistory[balance.Kind]
		want := FileBalance{File: balance.File, Kind: balance.Kind, Encoding: balance.Encoding, Read: rows, Added: rows}
		if diff := cmp.Diff(want, balance); diff != "" {
			t.Error(diff)
		}
		want.Added, want.Unchanged = 0, rows
		if diff := cmp.Diff(want, again.Files[i]); diff != "" {
			t.Errorf("the same file again: %s", diff)
		}
	}
	if len(first.Files) != len(smallHistory) {
		t.Errorf("%d files taken, want %d", len(first.Files), len(smallHistory))
	}
}
