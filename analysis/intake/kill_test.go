package intake

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"plumbline/analysis/history"
)

// victim names the history that this process is to import into until it is killed.
const victim = "PLUMBLINE_TEST_VICTIM"

// TestMain makes the test binary its own victim: called with a history, it imports and tells of each step.
func TestMain(m *testing.M) {
	if path := os.Getenv(victim); path != "" {
		os.Exit(importUntilKilled(path))
	}
	os.Exit(m.Run())
}

func importUntilKilled(path string) int {
	ctx := context.Background()
	h, err := history.OpenWriter(ctx, path)
	if err != nil {
		fmt.Println(err)
		return 1
	}
	defer h.Close()
	_, err = Import(ctx, h, Options{Files: []string{"../../testdata/history-small"}, Now: now,
		Progress: func(stage string, done, total int64) { fmt.Println(filepath.Base(stage), done, total) }})
	if err != nil {
		fmt.Println(err)
		return 1
	}
	return 0
}

// A process that dies in the middle of an import leaves the history as it was, whenever it dies.
func TestKilledImportLeavesTheHistoryAsItWas(t *testing.T) {
	path := filepath.Join(t.TempDir(), "history.duckdb")
	ctx := context.Background()
	h, err := history.OpenWriter(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	imported(t, h, Options{Files: []string{write(t, "jobs.csv", jobsHeader+"a,1,2026-03-09 14:05,recheck,,,,\n")}})
	if err := h.Close(); err != nil {
		t.Fatal(err)
	}
	for _, step := range []int{1, 5, 10, 14, 17, 18} { // of the 18 steps that the nine files take
		killAtStep(t, path, step)
		h, err := history.OpenWriter(ctx, path)
		if err != nil {
			t.Fatalf("killed at step %d: %v", step, err)
		}
		got := one(t, h, `select (select count(*) from jobs) || ' ' || (select count(*) from measurements) || ' '
			|| (select count(*) from scans) || ' ' || (select count(*) from import_files)`)
		if err := h.Close(); err != nil {
			t.Fatal(err)
		}
		if got != "1 0 0 1" {
			t.Errorf("killed at step %d: %s", step, got)
		}
	}
}

// killAtStep starts an import in another process and kills it as soon as it has told of so many steps.
func killAtStep(t *testing.T, path string, step int) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), victim+"="+path)
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	for range step {
		if !lines.Scan() {
			t.Fatalf("the import ended before step %d", step)
		}
	}
	if err := child.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	child.Wait()
}
