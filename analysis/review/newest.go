package review

import (
	"os"
	"path/filepath"
	"time"
)

// Newest finds the review among a folder's own folders that was written last, by the list of its pages; empty where there
// is none.
func Newest(folder string) (path string, written time.Time) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return "", written
	}
	for _, entry := range entries {
		beside := filepath.Join(folder, entry.Name())
		if info, err := os.Stat(filepath.Join(beside, listName)); err == nil && info.ModTime().After(written) {
			path, written = beside, info.ModTime()
		}
	}
	return path, written
}
