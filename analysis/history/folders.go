package history

import (
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// exportsIn lists the exports that a folder holds: itself, or those directly in it, by name.
func exportsIn(dir string) []string {
	if IsExport(dir) {
		return []string{dir}
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	var exports []string
	for _, entry := range entries {
		if inside := filepath.Join(dir, entry.Name()); entry.IsDir() && IsExport(inside) {
			exports = append(exports, inside)
		}
	}
	return exports
}

// What parts the numbers of several exports: rows within a table, and lines, imports and decisions of the journal.
const (
	mostRows    = 1 << 40
	mostJournal = 1_000_000
)

// layOver puts views over the files of exports where a history's tables would stand.
func (h *History) layOver(ctx context.Context) error {
	if err := h.run(ctx, "exports", "attach ':memory:' as history; use history"); err != nil {
		return err
	}
	if err := h.layTables(ctx); err != nil {
		return err
	}
	tables, err := h.tables(ctx, named("history"))
	if err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(tables)) {
		if err := h.layTableOver(ctx, tables[name]); err != nil {
			return fmt.Errorf("%s: %w", h.path, err)
		}
	}
	return nil
}

// layTableOver puts one view over the rows of a table in all exports. One that none of them has stays empty.
func (h *History) layTableOver(ctx context.Context, t table) error {
	var parts []string
	for i, dir := range h.exports {
		theirs, err := h.exportedTable(ctx, t, dir)
		if err != nil {
			return fmt.Errorf("%s cannot be read, export the history again: %w", filepath.Join(dir, t.file()), err)
		}
		if theirs != nil {
			parts = append(parts, t.oneOfMany(*theirs, i, parquetOf(dir, t)))
		}
	}
	if len(parts) == 0 {
		return nil
	}
	text, what := strings.Join(parts, "\nunion all by name\n"), "view"
	switch t.name {
	case "asked":
		text = "select 0 as rowid, max(as_of) as as_of, any_value(window_days) as window_days from (" + text + ")"
	case "history_schema":
		text, what = "select max(version) as version, null::varchar as views_digest from ("+text+")", "table"
	}
	return h.run(ctx, t.whole(), "drop table history."+t.whole()+"; create "+what+" history."+t.whole()+" as "+text)
}

// oneOfMany is the select of a table's rows in one export, with numbers that no other export has.
func (t table) oneOfMany(theirs table, nth int, relation string) string {
	if t.name == "history_schema" {
		return "select " + t.readFrom(theirs) + " from " + relation
	}
	var terms []string
	for _, name := range t.names() {
		if slices.Contains([]string{"from_file", "import", "replaced_by", "decision"}, name) {
			name = fmt.Sprintf("%[1]s + %[2]d as %[1]s", name, nth*mostJournal)
		}
		terms = append(terms, name)
	}
	terms = append(terms, fmt.Sprintf("row + %d as rowid", nth*mostRows))
	return "select " + strings.Join(terms, ", ") + " from (select " + t.readFrom(theirs) + ", row from " + relation + ")"
}
