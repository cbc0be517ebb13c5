package main

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestOldHistories holds a history of every version of the tables against the same records imported today. With -update it
// keeps one of this version where there is none yet.
func TestOldHistories(t *testing.T) {
	folder, err := filepath.Abs(filepath.Join("..", "..", "testdata", "history"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(filepath.Join(folder, "records")) // so that the journal has no path of this machine
	path := filepath.Join(t.TempDir(), "history.duckdb")
	today := newHistory(t, path)
	version := strings.Trim(said(t, path, 0, "query", "--format", "csv", "--sql", "select version from history_schema"), "version\n")
	packed := filepath.Join(folder, version+".duckdb.gz")
	if _, err := os.Stat(packed); err != nil && *update {
		pack(t, path, packed)
	}
	files, err := filepath.Glob(filepath.Join(folder, "*.duckdb.gz"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no old histories: %v", err)
	}
	if _, err := os.Stat(packed); err != nil {
		t.Errorf("%v: make it with go test ./cmd/plumbline -run TestOldHistories -update", err)
	}
	for _, file := range files {
		old := filepath.Join(t.TempDir(), "history.duckdb")
		unpack(t, file, old)
		if diff := cmp.Diff(today, findingsOf(t, old)); diff != "" {
			t.Errorf("%s: imported today -, read from the file +\n%s", filepath.Base(file), diff)
		}
	}
}

// newHistory makes a history with rejected, replaced, undone and decided records, and gives its findings.
func newHistory(t *testing.T, path string) string {
	t.Helper()
	said(t, path, exitPartial, "import", "jobs.csv", "glass.csv", "calibrations.csv", "measurements.csv", "scans.csv",
		"faults.csv", "road_tests.csv", "documents.csv", "equipment_checks.csv")
	said(t, path, 0, "import", "interim_scans.csv", "interim_faults.csv", "actions.csv")
	said(t, path, 0, "import", "corrected_jobs.csv")
	said(t, path, 0, "import", "mistaken_jobs.csv")
	said(t, path, 0, "imports", "undo", "4")
	for _, d := range [][3]string{
		{"c5b394d32b966c8d", "confirm", "same fault as in June"},
		{"deb4c2164a240176", "dismiss", "customer brought the wrong car"},
		{"3e64fc8fcce90221", "confirm", "stand squared since"},
		{"75405efa5a4f9d45", "dismiss", "imported vehicle"},
		{"75405efa5a4f9d45", "undo", "it is not"},
	} {
		said(t, path, 0, "decide", d[0], d[1], "--by", "T04", "--note", d[2])
	}
	return findingsOf(t, path)
}

func findingsOf(t *testing.T, path string) string {
	t.Helper()
	return said(t, path, 0, "findings", "--format", "csv")
}

// said runs a command in this process and gives its answer.
func said(t *testing.T, path string, status int, args ...string) string {
	t.Helper()
	var out, err bytes.Buffer
	if got := run(append(args, "--history", path), &streams{in: strings.NewReader(""), out: &out, err: &err}); got != status {
		t.Fatalf("%v ends with %d: %s", args, got, &err)
	}
	return out.String()
}

func pack(t *testing.T, from, to string) {
	t.Helper()
	text, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	var packed bytes.Buffer
	out, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := out.Write(text); err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(to, packed.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

func unpack(t *testing.T, from, to string) {
	t.Helper()
	packed, err := os.Open(from)
	if err != nil {
		t.Fatal(err)
	}
	defer packed.Close()
	in, err := gzip.NewReader(packed)
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if _, err := text.ReadFrom(in); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(to, text.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}
