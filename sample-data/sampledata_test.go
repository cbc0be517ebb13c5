package sampledata

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/layout"
)

func TestUnpackWritesEveryKind(t *testing.T) {
	dir := t.TempDir()
	paths, err := Unpack(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, path := range paths {
		names = append(names, filepath.Base(path))
		written, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if header, _, _ := bytes.Cut(written, []byte("\n")); !bytes.HasPrefix(header, []byte("shop,")) {
			t.Errorf("%s begins with %q, not with the layout's first column", path, header)
		}
	}
	var want []string
	for _, kind := range layout.KindNames() {
		want = append(want, kind+".csv")
	}
	slices.Sort(want)
	if diff := cmp.Diff(want, names); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
}

func TestUnpackNeedsAFolder(t *testing.T) {
	missing := filepath.Join(t.TempDir(), "missing")
	if paths, err := Unpack(missing); err == nil {
		t.Errorf("unpacked %d files into a folder that is not there", len(paths))
	}
}

func TestSampleIsSmall(t *testing.T) {
	total := int64(0)
	err := fs.WalkDir(Records(), ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		info, err := entry.Info()
		total += info.Size()
		return err
	})
	if err != nil || total > 1_500_000 {
		t.Errorf("records take %d bytes (%v), want at most 1.5 MB", total, err)
	}
}
