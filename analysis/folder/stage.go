package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Write makes a folder whole or not at all: fill writes into a folder beside it, which takes its place only when everything
// is on disk. Whatever goes wrong, nothing is left.
func Write(out string, fill func(dir string) error) (err error) {
	if err := Free(out); err != nil {
		return err
	}
	out, err = behind(out)
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp(filepath.Dir(out), unfinished)
	if err != nil {
		return fmt.Errorf("%s cannot be made: %w", out, err)
	}
	isDone := false
	defer func() { // after a panic too
		if !isDone {
			err = errors.Join(err, Remove(dir))
		}
	}()
	if err := os.Chmod(dir, 0o755); err != nil {
		return fmt.Errorf("%s cannot be made: %w", out, err)
	}
	if err := fill(dir); err != nil {
		return err
	}
	if err := syncFolders(dir); err != nil {
		return fmt.Errorf("%s cannot be finished: %w", out, err)
	}
	if err := os.Remove(out); err != nil && !errors.Is(err, fs.ErrNotExist) { // an empty folder, or free saw wrong
		return fmt.Errorf("%s cannot be replaced: %w", out, err)
	}
	if err := os.Rename(dir, out); err != nil {
		return fmt.Errorf("%s cannot be finished: %w", out, err)
	}
	dir = out
	if err := syncFolder(filepath.Dir(out)); err != nil {
		return fmt.Errorf("%s cannot be finished: %w", out, err)
	}
	isDone = true
	return nil
}

// behind is the whole path of a folder; behind a link, that of the folder which the link leads to, for the link is somebody's
// own arrangement and stays.
func behind(out string) (string, error) {
	out, err := filepath.Abs(out)
	if err != nil {
		return "", fmt.Errorf("%s: %w", out, err)
	}
	if info, err := os.Lstat(out); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		return out, nil
	}
	led, err := filepath.EvalSymlinks(out)
	if err != nil {
		return "", fmt.Errorf("%s is a link that leads to nothing: %w; make the folder that it leads to, or name another with --out", out, err)
	}
	return led, nil
}

// Free checks that a folder of this name can be made: there is none, or an empty one.
func Free(out string) error {
	entries, err := os.ReadDir(out)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("%s cannot be used: %w; name a new folder with --out", out, err)
	case len(entries) > 0:
		return fmt.Errorf("%s is not empty; name a new or an empty folder with --out, nothing was written", out)
	}
	return nil
}
