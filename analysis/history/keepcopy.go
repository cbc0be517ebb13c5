package history

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
)

// A fileCopy is a history's file as it was before its schema changed.
type fileCopy struct {
	name string
	rows map[string]int64 // of each table
}

// copyName is where the copy lies until the change is proven.
func copyName(path string) string { return fmt.Sprintf("%s.before-schema-%d", path, schemaVersion()) }

// logEnding is added to a file's name by the engine, for what is not yet in the file.
const logEnding = ".wal"

// keepCopy copies the file, and the engine's log where there is one. A reader holds the file while it is copied, so that
// nobody writes it.
func keepCopy(ctx context.Context, path string) (*fileCopy, error) {
	reader, rows, err := countedReader(ctx, path)
	if err != nil {
		return nil, err
	}
	kept := &fileCopy{copyName(path), rows}
	file, err := copyFile(path, kept.name)
	if err == nil {
		var log *os.File
		if log, err = copyFile(path+logEnding, kept.name+logEnding); errors.Is(err, os.ErrNotExist) {
			err = nil
		}
		defer log.Close()
	}
	// On Unix closing any of a process's files lets go of the locks that it has on it: the reader goes first.
	err = errors.Join(err, reader.Close())
	file.Close()
	if err != nil {
		kept.remove()
		return nil, &OpenError{path, ErrReading, "is of an older version, and no copy of it could be kept: " + err.Error(),
			"make room for a second file of its size beside it; the history is as it was"}
	}
	return kept, nil
}

// countedReader opens a history of any version and counts the rows of its tables.
func countedReader(ctx context.Context, path string) (*History, map[string]int64, error) {
	h, _, err := attached(ctx, path)
	if err != nil {
		return nil, nil, err
	}
	rows, err := h.rowCounts(ctx, named("history"))
	return h, rows, h.orClose(err)
}

// copyFile copies a file to disk for good and gives the original, still open.
func copyFile(from, to string) (*os.File, error) {
	original, err := os.Open(from)
	if err != nil {
		return nil, err
	}
	info, err := original.Stat()
	if err != nil {
		return original, err
	}
	copied, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, info.Mode().Perm())
	if err != nil {
		return original, err
	}
	_, err = io.Copy(copied, original)
	return original, errors.Join(err, copied.Sync(), copied.Close())
}

// remove takes the copy away.
func (c *fileCopy) remove() error {
	if err := os.Remove(c.name + logEnding); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return os.Remove(c.name)
}
