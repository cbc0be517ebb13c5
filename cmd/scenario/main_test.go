package main

import (
	"bytes"
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestCommandLineIsRefused(t *testing.T) {
	for _, args := range [][]string{{}, {"--jobs", "0", "--out", "x"}, {"--jobs", "many", "--out", "x"}, {"--out", "x", "surplus"}} {
		var errs bytes.Buffer
		if status := run(args, &errs); status != 2 || !strings.Contains(errs.String(), "--") && !strings.Contains(errs.String(), "-jobs") {
			t.Errorf("%q: status %d, says %q", args, status, errs.String())
		}
	}
}

func TestHelpIsNoFailure(t *testing.T) {
	var errs bytes.Buffer
	if status := run([]string{"--help"}, &errs); status != 0 || !strings.Contains(errs.String(), "number of jobs") {
		t.Errorf("status %d, says %q", status, errs.String())
	}
}

func TestFolderThatCannotBeMade(t *testing.T) {
	taken := filepath.Join(t.TempDir(), "taken")
	if err := os.WriteFile(taken, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, flag := range []string{"--out", "--foreign"} {
		var errs bytes.Buffer
		if status := run([]string{flag, taken}, &errs); status != 1 || !strings.HasPrefix(errs.String(), "scenario: make folder") {
			t.Errorf("%s: status %d, says %q", flag, status, errs.String())
		}
	}
}

// A larger history has as many jobs as asked for, less the few lost ones, in
// more shops, and no vehicle of one group is another's.
func TestLargerHistory(t *testing.T) {
	const asked = 10_000
	dir := t.TempDir()
	if status := run([]string{"--jobs", "10000", "--out", dir}, io.Discard); status != 0 {
		t.Fatalf("status %d", status)
	}
	file, err := os.Open(filepath.Join(dir, "jobs.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	shops, groups := map[string]int{}, map[string]string{}
	for _, line := range lines[1:] {
		shop, vin := line[0], line[2]
		shops[shop]++
		_, group, _ := strings.Cut(shop, "-")
		if before, seen := groups[vin]; seen && before != group && len(vin) == 17 {
			t.Errorf("%s was in group %q and in group %q", vin, before, group)
		}
		groups[vin] = group
	}
	if jobs := len(lines) - 1; jobs > asked || jobs < asked-asked/200 || len(shops) != 9 {
		t.Errorf("%d jobs in %d shops, want %d, or a few less, in 9", jobs, len(shops), asked)
	}
}
