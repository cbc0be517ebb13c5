package main

import (
	"context"
	"database/sql"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
	"plumbline/queries"
)

func newQuery(a *app) *cobra.Command {
	var (
		view   viewFlags
		list   bool
		text   string
		values map[string]string
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "query NAME | --sql TEXT | --list",
		Short: "Run a named query, or a SELECT of your own, read-only",
		Long: "Run one of the queries that plumbline itself asks, or a SELECT of your own over the tables and views of the\n" +
			"history. Nothing that is asked can change the history or touch another file. A query's parameters are taken\n" +
			"from the filters and from --set; one that is not given is null.",
		Example: "  plumbline query --list\n" +
			"  plumbline query trend --set outcome=comeback --set by=quarter\n" +
			"  plumbline query --sql \"select reason, count(*) from visits group by reason order by 2 desc\"",
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if list {
				return format.print(a, namedQueries())
			}
			if (len(args) == 1) == (text != "") {
				return usagef("query takes a name or --sql TEXT, one of the two; the names: plumbline query --list")
			}
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				rows, err := ask(cmd.Context(), h, args, text, filter, values)
				if err != nil {
					return err
				}
				g, err := gridOfRows(rows)
				if err != nil {
					return err
				}
				return format.print(a, g)
			})
		},
	}
	view.add(cmd)
	cmd.Flags().BoolVar(&list, "list", false, "list the named queries and what a row of each is")
	cmd.Flags().StringVar(&text, "sql", "", "your own `SELECT`")
	cmd.Flags().StringToStringVar(&values, "set", nil, "a parameter's value, `name=value`")
	format = addFormat(cmd)
	return cmd
}

// askable are the folders whose files answer a question by themselves.
var askable = []string{"findings", "measures"}

func namedQueries() grid {
	g := grid{columns: []string{"name", "rows"}}
	for _, folder := range askable {
		for _, name := range queries.List(folder) {
			if title, err := queries.Title(name); err == nil && isSelect(name) {
				g.rows = append(g.rows, []any{strings.TrimPrefix(name, folder+"/"), title})
			}
		}
	}
	return g
}

// isSelect tells a question from a statement: only a question says what a row of it is.
func isSelect(name string) bool {
	text, err := queries.SQL(name)
	return err == nil && queries.HeaderOf(text).IsQuestion()
}

func ask(ctx context.Context, h *history.History, args []string, text string, filter quality.Filter,
	values map[string]string) (*sql.Rows, error) {
	if text != "" {
		return h.Ask(ctx, text)
	}
	for _, folder := range askable {
		name := folder + "/" + args[0]
		if _, err := queries.SQL(name); err == nil && isSelect(name) {
			return h.AskNamed(ctx, name, history.Params{"shop": orNull(filter.Shop), "from": filter.From, "to": filter.To},
				values)
		}
	}
	return nil, usagef("there is no query %q; the names: plumbline query --list", args[0])
}

// gridOfRows takes rows whose columns only the query knows.
func gridOfRows(rows *sql.Rows) (grid, error) {
	defer rows.Close()
	columns, err := rows.Columns()
	if err != nil {
		return grid{}, err
	}
	types, err := rows.ColumnTypes()
	if err != nil {
		return grid{}, err
	}
	g := grid{columns: columns}
	for rows.Next() {
		cells := make([]any, len(columns))
		targets := make([]any, len(columns))
		for i := range cells {
			targets[i] = &cells[i]
		}
		if err := rows.Scan(targets...); err != nil {
			return g, fmt.Errorf("read the answer: %w", err)
		}
		for i := range cells {
			cells[i] = answerCell(cells[i], types[i].DatabaseTypeName())
		}
		g.rows = append(g.rows, cells)
	}
	return g, rows.Err()
}
