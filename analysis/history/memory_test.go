package history

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestMemoryIsHalfOfTheMachinesOrAsSaid(t *testing.T) {
	limitOf := func() string {
		t.Helper()
		h, err := InMemory(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		defer h.Close()
		var limit string
		if err := h.conn.QueryRowContext(t.Context(), "select current_setting('memory_limit')").Scan(&limit); err != nil {
			t.Fatal(err)
		}
		return limit
	}
	for most, want := range map[string]string{"18.8 GiB": "11.8 GiB", "800.0 MiB": "500.0 MiB", "all": "all"} {
		if got := halfOfMachine(most); got != want {
			t.Errorf("half of a machine of which the engine would take %s is %s, not %s", most, got, want)
		}
	}
	t.Setenv(memoryVariable, "512MiB")
	if got := limitOf(); got != "512.0 MiB" {
		t.Errorf("as said: %s", got)
	}
	t.Setenv(memoryVariable, "plenty")
	if _, err := InMemory(t.Context()); err == nil || !strings.Contains(err.Error(), "PLUMBLINE_MEMORY=plenty: is no amount of memory; write it as 4GB") {
		t.Errorf("an amount that is none: %v", err)
	}
}

// TestWhatAKilledProcessSpilledIsTakenAway leaves folders of a process that is gone, of this one, and of another machine.
func TestWhatAKilledProcessSpilledIsTakenAway(t *testing.T) {
	path := filepath.Join(t.TempDir(), "history.duckdb")
	const gone = 1 << 30 // more than any system numbers
	elsewhere := path + ".spill-elsewhere-1073741824"
	for _, folder := range []string{spillName(path, gone), spillName(path, os.Getpid()), elsewhere} {
		if err := os.MkdirAll(filepath.Join(folder, "part"), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	takeAwaySpills(path)
	for folder, stays := range map[string]bool{spillName(path, gone): false, spillName(path, os.Getpid()): true, elsewhere: true} {
		if _, err := os.Stat(folder); (err == nil) != stays {
			t.Errorf("%s: there is %v, should be %v", filepath.Base(folder), err == nil, stays)
		}
	}
}

// TestAnswersFitIntoLittleMemory asks for all findings with little memory.
func TestAnswersFitIntoLittleMemory(t *testing.T) {
	path := oldFile(t, schemaVersion())
	want := asked(t, reader(t, path), allFindings)
	t.Setenv(memoryVariable, "64MB")
	little := reader(t, path)
	if got := asked(t, little, allFindings); len(got) != len(want) {
		t.Errorf("%d findings, not %d", len(got), len(want))
	}
	little.Close()
	if left, _ := filepath.Glob(path + ".spill-*"); len(left) != 0 {
		t.Errorf("left behind: %v", left)
	}
}
