package history

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// Export writes every table as a Parquet file into a new or empty folder and says how many there were. Tables of the
// schema superseded carry it in the file's name.
func (h *History) Export(ctx context.Context, dir string) (int, error) {
	if err := makeEmpty(dir); err != nil {
		return 0, err
	}
	tables, err := Select[tableName](ctx, h, "measures/tables", nil)
	if err != nil {
		return 0, err
	}
	for _, table := range tables {
		name := table.Schema + "." + table.Name
		file := filepath.Join(dir, strings.TrimPrefix(name, "main.")+".parquet")
		// The engine takes no parameter for the file that it copies to.
		copyOut := "copy " + name + " to '" + strings.ReplaceAll(file, "'", "''") + "' (format parquet)"
		if err := h.run(ctx, "export", copyOut); err != nil {
			return 0, fmt.Errorf("write %s: %w", file, err)
		}
	}
	return len(tables), nil
}

type tableName struct{ Schema, Name string }

// makeEmpty makes a folder, or takes one that holds nothing.
func makeEmpty(dir string) error {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return os.MkdirAll(dir, 0o755)
	case err != nil:
		return err
	case len(entries) > 0:
		return fmt.Errorf("%s is not empty: name a new folder, nothing was written", dir)
	}
	return nil
}
