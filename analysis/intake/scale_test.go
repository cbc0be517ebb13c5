package intake

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"plumbline/analysis/history"
)

// BenchmarkImport measures an import of the files of a large history, with everything it does, against the engine's own
// CREATE TABLE AS over the same files, each into a new file; then the same files again, files with 0.1 % of rows at fault,
// and a month of new rows. Name the folder with PLUMBLINE_BENCH_FILES; without it the small history is taken, which says
// little. A history of any size: go run ./cmd/scenario. Processor time holds on a busy machine too.
func BenchmarkImport(b *testing.B) {
	folder := os.Getenv("PLUMBLINE_BENCH_FILES")
	if folder == "" {
		folder = "../../testdata/history-small"
	}
	faulty := b.TempDir()
	spoil(b, folder, faulty)
	for b.Loop() {
		bare := spent(b, func(h *history.History) error { return bareLoad(h, folder) })
		var again time.Duration
		full := spent(b, func(h *history.History) error { return importFolder(h, folder) }, &again, func(h *history.History) error {
			return importFolder(h, folder)
		})
		spoiled := spent(b, func(h *history.History) error { return importFolder(h, faulty) })
		b.ReportMetric(bare.Seconds(), "bare-cpu-s")
		b.ReportMetric(full.Seconds()/bare.Seconds(), "import/bare-cpu")
		b.ReportMetric(spoiled.Seconds()/bare.Seconds(), "faulty/bare-cpu")
		b.ReportMetric(again.Seconds()/full.Seconds(), "again/import-cpu")
	}
}

func importFolder(h *history.History, folder string) error {
	_, err := Import(context.Background(), h, Options{Files: []string{folder}, Now: now, ToolVersion: "bench"})
	return err
}

// spoil copies the files with one row in a thousand said again, with the same content or with another.
func spoil(b *testing.B, from, to string) {
	b.Helper()
	for _, kind := range smallKinds {
		text, err := os.ReadFile(filepath.Join(from, kind+".csv"))
		if err != nil {
			b.Fatal(err)
		}
		lines := strings.SplitAfter(string(text), "\n")
		for i := 500; i < len(lines)-1; i += 1000 {
			again := lines[i]
			if i%2000 > 1000 {
				again = again[:strings.LastIndexByte(again, ',')+1] + "zz\n"
			}
			lines = append(lines, again)
		}
		if err := os.WriteFile(filepath.Join(to, kind+".csv"), []byte(strings.Join(lines, "")), 0o600); err != nil {
			b.Fatal(err)
		}
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

// spent is the processor time of work on a new history file, closing included: what is not written yet is written then. What
// comes after it is measured for itself.
func spent(b *testing.B, work func(*history.History) error, after ...any) time.Duration {
	b.Helper()
	path := filepath.Join(b.TempDir(), "history.duckdb")
	took := func(work func(*history.History) error) time.Duration {
		start := cpuSeconds(b)
		h, err := history.OpenWriter(context.Background(), path)
		if err != nil {
			b.Fatal(err)
		}
		if err := errors.Join(work(h), h.Close()); err != nil {
			b.Fatal(err)
		}
		return time.Duration((cpuSeconds(b) - start) * float64(time.Second))
	}
	first := took(work)
	if len(after) == 2 {
		*after[0].(*time.Duration) = took(after[1].(func(*history.History) error))
	}
	return first
}

func bareLoad(h *history.History, folder string) error {
	return h.Change(context.Background(), func() error {
		for _, kind := range smallKinds {
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
