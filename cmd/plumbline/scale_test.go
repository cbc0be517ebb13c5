package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// BenchmarkCommands measures what a user waits for on a history of any size: the import of a folder of records, then
// findings and the review, each beside the import of the same run, and the peak memory of all three. Name the folder
// with PLUMBLINE_BENCH_FILES (go run ./cmd/scenario makes one); without it the small history is taken.
func BenchmarkCommands(b *testing.B) {
	folder := os.Getenv("PLUMBLINE_BENCH_FILES")
	if folder == "" {
		folder = filepath.Join("..", "..", "testdata", "history-small")
	}
	for b.Loop() {
		dir := b.TempDir()
		file := filepath.Join(dir, "history.duckdb")
		imported := waited(b, "import", folder, "--history", file)
		found := waited(b, "findings", "--format", "csv", "--history", file)
		reviewed := waited(b, "review", "--out", filepath.Join(dir, "review"), "--history", file)
		b.ReportMetric(imported.Seconds(), "import-s")
		b.ReportMetric(found.Seconds()/imported.Seconds(), "findings/import")
		b.ReportMetric(reviewed.Seconds()/imported.Seconds(), "review/import")
		var usage syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &usage); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(usage.Maxrss)/1024, "peak-MiB")
	}
}

func waited(b *testing.B, args ...string) time.Duration {
	b.Helper()
	var told bytes.Buffer
	start := time.Now()
	if status := run(args, newStreams(nil, io.Discard, &told)); status != exitDone {
		b.Fatalf("%v: exit status %d\n%s", args, status, told.String())
	}
	return time.Since(start)
}
