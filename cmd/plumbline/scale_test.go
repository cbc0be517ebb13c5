package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"plumbline/analysis/history"
)

// BenchmarkCommands measures what a user waits for on a history of any size, by processor time as well: shared machines make
// the clock on the wall a poor measure. All is told as a multiple of the bare load of the same files in the same run, a CREATE
// TABLE AS read_csv each; a story also of the bare look-up of its vehicle. Name the folder of records with
// PLUMBLINE_BENCH_FILES (go run ./cmd/scenario makes one); without it the small history is taken.
func BenchmarkCommands(b *testing.B) {
	folder := os.Getenv("PLUMBLINE_BENCH_FILES")
	if folder == "" {
		folder = filepath.Join("..", "..", "testdata", "history-small")
	}
	for b.Loop() {
		dir := b.TempDir()
		file := filepath.Join(dir, "history.duckdb")
		bare := measured(b, func() error { return loadBare(b, folder) })
		b.ReportMetric(bare.wall.Seconds(), "bare-load-s")
		b.ReportMetric(bare.processor.Seconds(), "bare-load-cpu-s")
		vehicle := ""
		for _, command := range []string{
			"import " + folder, "import-again " + folder, "trend --outcome comeback", "compare --by equipment --outcome not_first_pass",
			"glass", "curve", "onset --by equipment", "trace VEHICLE", "findings --format csv", "review --out " + filepath.Join(dir, "review"),
			"check", "export --out " + filepath.Join(dir, "export"),
		} {
			args := strings.Fields(strings.Replace(command, "VEHICLE", vehicle, 1))
			name := args[0]
			args[0] = strings.TrimSuffix(args[0], "-again")
			took := measured(b, func() error { return waited(append(args, "--history", file)...) })
			b.ReportMetric(took.wall.Seconds()/bare.wall.Seconds(), name+"/bare")
			b.ReportMetric(took.processor.Seconds()/bare.processor.Seconds(), name+"-cpu/bare")
			if name == "import" {
				vehicle = someVehicle(b, file)
			}
		}
		lookup := measured(b, func() error {
			return waited("query", "--sql", "select * from jobs where vin = '"+vehicle+"'", "--history", file)
		})
		story := measured(b, func() error { return waited("trace", vehicle, "--history", file) })
		b.ReportMetric(story.processor.Seconds()/lookup.processor.Seconds(), "trace-cpu/lookup")
		b.ReportMetric(float64(usage(b).Maxrss)/1024, "peak-MiB")
	}
}

// a cost is what a piece of work took.
type cost struct{ wall, processor time.Duration }

func measured(b *testing.B, do func() error) cost {
	b.Helper()
	before, start := usage(b), time.Now()
	if err := do(); err != nil {
		b.Fatal(err)
	}
	wall, after := time.Since(start), usage(b)
	spent := func(u syscall.Rusage) time.Duration { return time.Duration(u.Utime.Nano() + u.Stime.Nano()) }
	return cost{wall, spent(after) - spent(before)}
}

func usage(b *testing.B) syscall.Rusage {
	b.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return u
}

// loadBare loads the files as the engine would by itself.
func loadBare(b *testing.B, folder string) error {
	h, err := history.OpenWriter(b.Context(), filepath.Join(b.TempDir(), "bare.duckdb"))
	if err != nil {
		return err
	}
	defer h.Close()
	files, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	for i, file := range files {
		text := fmt.Sprintf("create table bare_%d as from read_csv('%s')", i, strings.ReplaceAll(file, "'", "''"))
		if _, err := h.Run(b.Context(), history.Statement{Name: "bare load", SQL: text}, nil); err != nil {
			return err
		}
	}
	return err
}

// someVehicle is the one with the most visits.
func someVehicle(b *testing.B, file string) string {
	b.Helper()
	h, err := history.OpenReader(b.Context(), file)
	if err != nil {
		b.Fatal(err)
	}
	defer h.Close()
	vins, err := history.SelectStatement[string](b.Context(), h, history.Statement{Name: "vehicle", SQL: "select vin from jobs " +
		"where vin is not null group by vin order by count(*) desc, vin limit 1"}, nil)
	if err != nil || len(vins) != 1 {
		b.Fatalf("%v, %v", vins, err)
	}
	return vins[0]
}

func waited(args ...string) error {
	var told bytes.Buffer
	if status := run(args, newStreams(nil, io.Discard, &told)); status != exitDone {
		return fmt.Errorf("%v: exit status %d\n%s", args, status, told.String())
	}
	return nil
}
