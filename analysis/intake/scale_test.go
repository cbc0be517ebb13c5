package intake

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
)

// BenchmarkImport measures an import of the nine files of a large history, with everything it does, against the
// engine's own CREATE TABLE AS over the same files, each into a new file. Name the folder with PLUMBLINE_BENCH_FILES;
// without it the small history is taken, which says little. A history of any size: go run ./cmd/scenario.
func BenchmarkImport(b *testing.B) {
	folder := os.Getenv("PLUMBLINE_BENCH_FILES")
	if folder == "" {
		folder = "../../testdata/history-small"
	}
	for b.Loop() {
		start := cpuSeconds(b)
		bare := timed(b, func(h *history.History) error { return bareLoad(h, folder) })
		bareCPU := cpuSeconds(b) - start
		full := timed(b, func(h *history.History) error {
			_, err := Import(context.Background(), h, Options{Files: []string{folder}, Now: now, ToolVersion: "bench"})
			return err
		})
		fullCPU := cpuSeconds(b) - start - bareCPU
		b.ReportMetric(bare.Seconds(), "bare-s")
		b.ReportMetric(full.Seconds(), "import-s")
		b.ReportMetric(full.Seconds()/bare.Seconds(), "import/bare")
		b.ReportMetric(fullCPU/bareCPU, "import/bare-cpu") // holds on a busy machine too
	}
}

// cpuSeconds is the processor time of this process so far, all threads together.
func cpuSeconds(b *testing.B) float64 {
	b.Helper()
	var usage syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &usage); err != nil {
		b.Fatal(err)
	}
	return float64(usage.Utime.Sec+usage.Stime.Sec) + float64(usage.Utime.Usec+usage.Stime.Usec)/1e6
}

// timed runs work on a new history file, closing included: what is not written yet is written then.
func timed(b *testing.B, work func(*history.History) error) time.Duration {
	b.Helper()
	h, err := history.OpenWriter(context.Background(), filepath.Join(b.TempDir(), "history.duckdb"))
	if err != nil {
		b.Fatal(err)
	}
	start := time.Now()
	if err := work(h); err != nil {
		b.Fatal(err)
	}
	if err := h.Close(); err != nil {
		b.Fatal(err)
	}
	return time.Since(start)
}

func bareLoad(h *history.History, folder string) error {
	return h.Change(context.Background(), func() error {
		for _, kind := range layout.KindNames() {
			_, err := h.Run(context.Background(), history.Statement{Name: "bare load",
				SQL: fmt.Sprintf("create table bare_%s as select * from read_csv($file)", kind)},
				history.Params{"file": filepath.Join(folder, kind+".csv")})
			if err != nil {
				return err
			}
		}
		return nil
	})
}
