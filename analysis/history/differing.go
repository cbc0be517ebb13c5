package history

import (
	"context"
	"maps"
	"slices"
)

// IsExport tells whether exports are read in place of a file. They carry records, and no macros and views.
func (h *History) IsExport() bool { return h.exports != nil }

// Differing names the tables, macros and views of a reader's file that are otherwise than this version would lay them. What
// others have added to the file is theirs.
func (h *History) Differing(ctx context.Context) ([]string, error) {
	fresh, err := InMemory(ctx)
	if err != nil {
		return nil, err
	}
	defer fresh.Close()
	want, err := fresh.laid(ctx, nil)
	if err != nil {
		return nil, err
	}
	have, err := h.laid(ctx, named("history"))
	if err != nil {
		return nil, err
	}
	var differing []string
	for _, name := range slices.Sorted(maps.Keys(want)) {
		if want[name] != have[name] {
			differing = append(differing, name)
		}
	}
	return differing, nil
}

// laid tells what a database holds: each table's columns, and each definition's text, by name.
func (h *History) laid(ctx context.Context, database *string) (map[string]string, error) {
	all := map[string]string{}
	tables, err := h.tables(ctx, database)
	if err != nil {
		return nil, err
	}
	for name, t := range tables {
		for _, column := range slices.Sorted(maps.Keys(t.columns)) { // a step puts new ones last
			all["table "+name] += column + " " + t.columns[column].Type + "\n"
		}
	}
	definitions, err := Select[struct{ Name, Text string }](ctx, h, "intake/definitions", Params{"database": database})
	for _, d := range definitions {
		all[d.Name] = d.Text
	}
	return all, err
}
