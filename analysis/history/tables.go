package history

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/layout"
	"plumbline/queries"
)

// A column of a table, as the engine knows it.
type column struct {
	Schema, Relation, Name, Type string
	Value                        *string // the default, as SQL
	Comment                      *string // of the table
	IsRequired                   bool
}

// A table of a history. One that a step has changed holds its columns in another order.
type table struct {
	schema, name string
	order        []string
	columns      map[string]column
}

// whole is the table's name with its schema.
func (t table) whole() string { return t.schema + "." + t.name }

// names are the columns', in their order.
func (t table) names() []string { return t.order }

// tables gives those of a database by schema and name; of the open one where it is not named.
func (h *History) tables(ctx context.Context, database *string) (map[string]table, error) {
	columns, err := Select[column](ctx, h, "intake/columns", Params{"database": database})
	if err != nil {
		return nil, err
	}
	all := map[string]table{}
	for _, c := range columns {
		whole := c.Schema + "." + c.Relation
		t, known := all[whole]
		if !known {
			t = table{schema: c.Schema, name: c.Relation, columns: map[string]column{}}
		}
		t.columns[c.Name] = c
		t.order = append(t.order, c.Name)
		all[whole] = t
	}
	return all, nil
}

// todaysTables gives the tables of an empty history of this version.
func todaysTables(ctx context.Context) (map[string]table, error) {
	h, err := open(ctx, "")
	if err != nil {
		return nil, err
	}
	defer h.Close()
	if err := h.layTables(ctx); err != nil {
		return nil, err
	}
	return h.tables(ctx, nil)
}

// readsLike tells whether a select over one table means the same over the other.
func (t table) readsLike(other table) bool {
	for name, c := range t.columns {
		if theirs, has := other.columns[name]; !has || theirs.Type != c.Type {
			return false
		}
	}
	return len(t.columns) == len(other.columns)
}

// rowCounts counts the rows of each table of a database; of the open one where it is not named.
func (h *History) rowCounts(ctx context.Context, database *string) (map[string]int64, error) {
	tables, err := h.tables(ctx, database)
	if err != nil {
		return nil, err
	}
	within := ""
	if database != nil {
		within = *database + "."
	}
	var parts []string
	for whole := range tables {
		parts = append(parts, fmt.Sprintf("select '%[1]s' as name, count(*) as rows from %[2]s%[1]s", whole, within))
	}
	rows, err := SelectStatement[struct {
		Name string
		Rows int64
	}](ctx, h, Statement{"rows of tables", strings.Join(parts, " union all ")}, nil)
	counts := map[string]int64{}
	for _, row := range rows {
		counts[row.Name] = row.Rows
	}
	return counts, err
}

// today is the schema of this version. Tests put another in its place to see an old file through a change.
var today = struct {
	tables func() []string
	steps  []queries.Step
}{func() []string { return slices.Concat(layout.Tables(), queries.Tables()) }, queries.Steps()}
