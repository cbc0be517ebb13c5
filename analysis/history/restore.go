package history

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// exportMark is the file that only the folder of an export has.
const exportMark = "history_schema.parquet"

// IsExport tells whether a folder holds an export of a history.
func IsExport(dir string) bool {
	info, err := os.Stat(filepath.Join(dir, exportMark))
	return err == nil && !info.IsDir()
}

// IsEmpty tells whether nothing was ever imported into the history.
func (h *History) IsEmpty(ctx context.Context) (bool, error) {
	imports, err := SelectStatement[int64](ctx, h, Statement{"imports", "select count(*) from imports"}, nil)
	return err == nil && imports[0] == 0, err
}

// Restore makes an empty history what it was when it was exported into the folder: records in their order, journal, rows set
// aside, replaced records and decisions. It says how many records stand.
func (h *History) Restore(ctx context.Context, dir string) (int64, error) {
	var records int64
	err := h.Change(ctx, func() error {
		tables, err := h.tables(ctx, nil)
		if err != nil {
			return err
		}
		if err := h.checkExport(ctx, dir); err != nil {
			return err
		}
		for _, name := range slices.Sorted(maps.Keys(tables)) {
			rows, err := h.restoreTable(ctx, tables[name], dir)
			if err != nil {
				return fmt.Errorf("%s: %s cannot be read, export the history again: %w", dir, name, err)
			}
			if tables[name].kind() != nil {
				records += rows
			}
		}
		return nil
	})
	return records, err
}

// checkExport refuses an export that a later plumbline has made.
func (h *History) checkExport(ctx context.Context, dir string) error {
	versions, err := SelectStatement[int](ctx, h, Statement{"export", "select version from read_parquet(" +
		literal(filepath.Join(dir, exportMark)) + ")"}, nil)
	switch {
	case err != nil:
		return err
	case len(versions) != 1:
		return fmt.Errorf("%s is damaged: export the history again", filepath.Join(dir, exportMark))
	case versions[0] > schemaVersion():
		return &OpenError{dir, ErrNewer, fmt.Sprintf("was exported by a newer plumbline (schema %d, this one knows %d)",
			versions[0], schemaVersion()), "use that version"}
	}
	return nil
}

// restoreTable takes one table from the export. An older export may lack it, or columns of it.
func (h *History) restoreTable(ctx context.Context, t table, dir string) (int64, error) {
	if t.name == "history_schema" {
		return 0, nil
	}
	theirs, err := h.exportedTable(ctx, t, dir)
	if err != nil || theirs == nil {
		return 0, err
	}
	if err := h.run(ctx, t.whole(), "delete from "+t.whole()); err != nil { // the point of view is there already
		return 0, err
	}
	text := "insert into " + t.whole() + " by name select " + t.readFrom(*theirs) + " from " + parquetOf(dir, t) + " order by row"
	return h.Run(ctx, Statement{t.whole(), text}, nil)
}

// exportedTable tells the columns of a table in an export; nil where it has no rows of it.
func (h *History) exportedTable(ctx context.Context, t table, dir string) (*table, error) {
	if _, err := os.Stat(filepath.Join(dir, t.file())); errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	columns, err := SelectStatement[column](ctx, h, Statement{t.whole(),
		"select column_name as name, column_type as type from (describe select * from " + parquetOf(dir, t) + ")"}, nil)
	if err != nil {
		return nil, err
	}
	theirs := &table{schema: t.schema, name: t.name, columns: map[string]column{}}
	for _, c := range columns {
		theirs.columns[c.Name] = c
	}
	return theirs, nil
}
