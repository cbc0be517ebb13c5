package main

import (
	"bytes"
	"compress/gzip"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"plumbline/analysis/layout"
	"plumbline/cmd/scenario/wide"
	sampledata "plumbline/sample-data"
)

// The committed sample is what the generator makes, byte for byte. Compared is
// what is in the compressed files: the bytes of the compression itself may
// change with the compiler's library, the records may not.
func TestSampleIsReproduced(t *testing.T) {
	dir := t.TempDir()
	if status := run([]string{"--out", dir, "--foreign", dir}, io.Discard); status != 0 {
		t.Fatalf("status %d", status)
	}
	for _, kind := range layout.Kinds {
		want := unzip(t, committed(t, sampledata.Records(), kind.Name+".csv.gz"))
		same(t, want, filepath.Join(dir, kind.Name+".csv"))
	}
	same(t, committed(t, os.DirFS("../../sample-data/foreign"), wide.FileName), filepath.Join(dir, wide.FileName))
}

// Two runs give equal compressed files, and their headers carry neither time
// nor name (RFC 1952, section 2.3: flags, modification time).
func TestCompressedFilesAreReproduced(t *testing.T) {
	one, other := t.TempDir(), t.TempDir()
	for _, dir := range []string{one, other} {
		if status := run([]string{"--gzip", "--jobs", "400", "--seed", "7", "--out", dir}, io.Discard); status != 0 {
			t.Fatalf("status %d", status)
		}
	}
	for _, kind := range layout.Kinds {
		first, err := os.ReadFile(filepath.Join(one, kind.Name+".csv.gz"))
		if err != nil {
			t.Fatal(err)
		}
		same(t, first, filepath.Join(other, kind.Name+".csv.gz"))
		if !bytes.Equal(first[3:8], make([]byte, 5)) {
			t.Errorf("%s: flags and time are % x, want zeros", kind.Name, first[3:8])
		}
	}
}

func TestAnotherSeedGivesAnotherHistory(t *testing.T) {
	dir := t.TempDir()
	if status := run([]string{"--jobs", "4000", "--seed", "26", "--out", dir}, io.Discard); status != 0 {
		t.Fatalf("status %d", status)
	}
	other, err := os.ReadFile(filepath.Join(dir, "jobs.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(other, unzip(t, committed(t, sampledata.Records(), "jobs.csv.gz"))) {
		t.Error("seed 26 gives the jobs of the sample's seed")
	}
}

func committed(t *testing.T, in fs.FS, name string) []byte {
	t.Helper()
	content, err := fs.ReadFile(in, name)
	if err != nil {
		t.Fatal(err)
	}
	return content
}

func unzip(t *testing.T, packed []byte) []byte {
	t.Helper()
	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	content, err := io.ReadAll(plain)
	if err != nil {
		t.Fatal(err)
	}
	return content
}

func same(t *testing.T, want []byte, path string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(want, got) {
		return
	}
	wanted, written := bytes.Split(want, []byte("\n")), bytes.Split(got, []byte("\n"))
	for i := range min(len(wanted), len(written)) {
		if !bytes.Equal(wanted[i], written[i]) {
			t.Errorf("%s:%d\nwant %s\n got %s\nto renew the sample: go generate ./sample-data", filepath.Base(path), i+1, wanted[i], written[i])
			return
		}
	}
	t.Errorf("%s has %d lines, want %d; to renew the sample: go generate ./sample-data", filepath.Base(path), len(written), len(wanted))
}
