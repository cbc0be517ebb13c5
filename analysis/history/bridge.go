package history

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"plumbline/queries"
)

// latestEvent is the shape that is asked before there is a point of view.
const latestEvent = "latest_event"

// putTodayBefore has today's macros, and of an older file today's tables, found before the file's own.
func (h *History) putTodayBefore(ctx context.Context, version int) error {
	if err := h.run(ctx, "today's rules", "set search_path = 'memory.main'"); err != nil {
		return err
	}
	if version < schemaVersion() {
		if err := h.bridge(ctx); err != nil {
			return err
		}
	}
	if err := h.layMacros(ctx); err != nil {
		return err
	}
	if err := h.run(ctx, "today's rules", "create schema if not exists superseded; "+searchPath); err != nil {
		return err
	}
	return h.run(ctx, latestEvent, "create view "+latestEvent+" as\n"+queries.Shape(latestEvent).SQL)
}

// bridge lets today's questions read a file of an older version without changing it: before each table that is otherwise
// today stands a view with today's columns, before one that the file lacks an empty table. A column that the file lacks
// has its default, so that a default must say what its absence meant.
func (h *History) bridge(ctx context.Context) error {
	h.isBridged = true
	if err := h.layTables(ctx); err != nil {
		return err
	}
	ours, err := h.tables(ctx, named("memory"))
	if err != nil {
		return err
	}
	theirs, err := h.tables(ctx, named("history"))
	if err != nil {
		return err
	}
	for _, whole := range slices.Sorted(maps.Keys(ours)) {
		if err := h.bridgeTable(ctx, ours[whole], theirs); err != nil {
			return err
		}
	}
	return nil
}

func (h *History) bridgeTable(ctx context.Context, ours table, all map[string]table) error {
	whole := ours.whole()
	theirs, there := all[whole]
	if !there {
		return nil
	}
	statement := "drop table memory." + whole + ";\n"
	if !ours.readsLike(theirs) && ours.name != "history_schema" { // which says of what version the file is
		statement += "create view memory." + whole + " as select " + ours.readFrom(theirs) + ", rowid from history." + whole
	}
	return h.run(ctx, "older history", statement)
}

// readFrom lists what stands for today's columns in an older table, or in an export.
func (t table) readFrom(older table) string {
	var terms []string
	for _, name := range t.names() {
		ours, was := t.columns[name], older.columns[name]
		switch {
		case name == t.numbered() && older.columns[givenNumber].Type != "":
			terms = append(terms, fmt.Sprintf("coalesce(%[1]s, %[2]s)::integer as %[1]s", name, givenNumber))
		case was.Type == ours.Type:
			terms = append(terms, name)
		case was.Type != "":
			terms = append(terms, fmt.Sprintf("%[1]s::%[2]s as %[1]s", name, ours.Type))
		case ours.Value != nil:
			terms = append(terms, fmt.Sprintf("(%s)::%s as %s", *ours.Value, ours.Type, name))
		default:
			terms = append(terms, fmt.Sprintf("null::%s as %s", ours.Type, name))
		}
	}
	return strings.Join(terms, ", ")
}

func named(name string) *string { return &name }
