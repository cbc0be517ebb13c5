package folder

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// Remove takes a folder away with all that is in it. Where the system cannot do so in one go, as on some drives under Windows,
// each file goes by itself, the innermost first. That nothing is there is no error.
func Remove(dir string) error {
	if err := os.RemoveAll(dir); err == nil {
		return nil
	}
	var names []string
	err := filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		names = append(names, path)
		return err
	})
	if err != nil {
		return err
	}
	for _, name := range slices.Backward(names) {
		if err := os.Remove(name); err != nil {
			return err
		}
	}
	return nil
}
