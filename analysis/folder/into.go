package folder

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// Into adds files to a folder, all or none of them, and makes it where it is not there. Fill writes into a folder within it;
// what it has written then takes its places, over files of the same names. Until then the folder is as it was, so that a full
// disk in the middle harms nothing; and where one file cannot take its place, those before it give theirs back.
func Into(out string, fill func(dir string) error) (err error) {
	isNew := false
	if _, err := os.Stat(out); errors.Is(err, fs.ErrNotExist) {
		isNew = true
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return fmt.Errorf("%s cannot be made: %w", out, err)
	}
	dir, err := os.MkdirTemp(out, unfinished)
	if err != nil {
		return fmt.Errorf("nothing can be written into %s: %w", out, err)
	}
	defer func() { // after a panic too
		err = errors.Join(err, Remove(dir))
		if isNew && err != nil {
			os.Remove(out) // only where nothing is in it
		}
	}()
	fresh, old := filepath.Join(dir, "new"), filepath.Join(dir, "old")
	if err := errors.Join(os.Mkdir(fresh, 0o755), os.Mkdir(old, 0o755)); err != nil {
		return err
	}
	if err := fill(fresh); err != nil {
		return err
	}
	files, err := filesOf(fresh)
	if err != nil {
		return err
	}
	m := mover{fresh, old, out, nil}
	for _, name := range files {
		if err := m.place(name); err != nil {
			return errors.Join(fmt.Errorf("%s cannot be replaced: %w; close it if another program has it open, nothing was changed", filepath.Join(out, name), err), m.giveBack())
		}
	}
	return nil
}

// unfinished begins the name of a folder in which something is being made.
const unfinished = ".unfinished-*"

// filesOf lists the files below a folder, those of the innermost folders first: a page is there before what leads to it.
func filesOf(dir string) (names []string, err error) {
	err = filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, path)
		names = append(names, name)
		return err
	})
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(len(filepath.Dir(b)), len(filepath.Dir(a))), cmp.Compare(a, b))
	})
	return names, err
}

// mover puts files in their places and knows how to undo it.
type mover struct {
	fresh, old, out string
	undo            []func() error
}

// place puts a new file in its place, and what was there aside.
func (m *mover) place(name string) error {
	from, aside, to := filepath.Join(m.fresh, name), filepath.Join(m.old, name), filepath.Join(m.out, name)
	for _, folder := range []string{filepath.Dir(aside), filepath.Dir(to)} {
		if err := os.MkdirAll(folder, 0o755); err != nil {
			return err
		}
	}
	info, err := os.Lstat(to)
	switch {
	case err == nil && info.IsDir():
		return errors.New("a folder has its name")
	case err == nil:
		if err := os.Rename(to, aside); err != nil {
			return err
		}
		m.undo = append(m.undo, func() error { return os.Rename(aside, to) })
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	if err := os.Rename(from, to); err != nil {
		return err
	}
	m.undo = append(m.undo, func() error { return os.Remove(to) })
	return nil
}

func (m *mover) giveBack() error {
	var failed error
	for _, undo := range slices.Backward(m.undo) {
		failed = errors.Join(failed, undo())
	}
	return failed
}
