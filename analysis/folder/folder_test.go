package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// contents gives the files of a folder, links by what they lead to.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		got[filepath.ToSlash(name)] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// lay writes files, by name and text.
func lay(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
}

func same(t *testing.T, dir string, want map[string]string) {
	t.Helper()
	if diff := cmp.Diff(want, contents(t, dir)); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

func TestIntoAddsAllOrNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "review")
	fill := func(files map[string]string) func(string) error {
		return func(fresh string) error { lay(t, fresh, files); return nil }
	}
	if err := Into(dir, fill(map[string]string{"index.html": "1", "vehicles/a.html": "1"})); err != nil {
		t.Fatal(err)
	}
	lay(t, dir, map[string]string{"mine.txt": "kept", "vehicles/mine.txt": "kept"})
	if err := Into(dir, fill(map[string]string{"index.html": "2", "vehicles/b.html": "2"})); err != nil {
		t.Fatal(err)
	}
	now := map[string]string{"index.html": "2", "vehicles/a.html": "1", "vehicles/b.html": "2", "mine.txt": "kept", "vehicles/mine.txt": "kept"}
	same(t, dir, now)

	full := errors.New("the disk is full")
	if err := Into(dir, func(fresh string) error {
		lay(t, fresh, map[string]string{"index.html": "3"})
		return full
	}); !errors.Is(err, full) {
		t.Errorf("%v", err)
	}
	same(t, dir, now)

	// the last to take its place cannot, and those before it give theirs back
	if err := os.Mkdir(filepath.Join(dir, "z.html"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := Into(dir, fill(map[string]string{"index.html": "3", "new.html": "3", "vehicles/b.html": "3", "z.html": "3"})); err == nil {
		t.Error("a file took the place of a folder")
	}
	same(t, dir, now)

	beside := filepath.Join(t.TempDir(), "none")
	if err := Into(beside, func(string) error { return full }); !errors.Is(err, full) {
		t.Errorf("%v", err)
	}
	if _, err := os.Stat(beside); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("an empty folder is left: %v", err)
	}
}

func TestIntoLeavesNothingAfterAPanic(t *testing.T) {
	dir := t.TempDir()
	func() {
		defer func() { _ = recover() }()
		_ = Into(dir, func(fresh string) error {
			lay(t, fresh, map[string]string{"index.html": "1"})
			panic("a defect")
		})
	}()
	same(t, dir, map[string]string{})
}

// A link to a folder is somebody's arrangement: what it leads to is filled, and it stays.
func TestWriteGoesBehindLinks(t *testing.T) {
	dir := t.TempDir()
	link, target := filepath.Join(dir, "link"), filepath.Join(dir, "target")
	if err := os.Symlink("target", link); err != nil {
		t.Skipf("the file system here has no links, no tool would help: %v", err)
	}
	write := func() error {
		return Write(link, func(fresh string) error { lay(t, fresh, map[string]string{"a": "1"}); return nil })
	}
	if err := write(); err == nil || !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a link to nothing: %v", err)
	}
	if err := os.Mkdir(target, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := write(); err != nil {
		t.Fatal(err)
	}
	if led, err := os.Readlink(link); err != nil || led != "target" {
		t.Errorf("the link leads to %q: %v", led, err)
	}
	same(t, target, map[string]string{"a": "1"})
}

func TestReplace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list")
	for _, text := range []string{"one", "two"} {
		if err := Replace(path, []byte(text)); err != nil {
			t.Fatal(err)
		}
		same(t, filepath.Dir(path), map[string]string{"list": text})
	}
	if err := Replace(filepath.Join(path, "x"), nil); err == nil {
		t.Error("a file was written into a file")
	}
}
