package history

import (
	"context"
	"database/sql"
	"errors"
	"slices"
	"strings"

	"github.com/marcboeker/go-duckdb"
)

// This file is the only one that knows the database driver: another driver is a change of this file.

// engineAt gives the engine over a file, or over memory where path is empty.
func engineAt(path string) (*sql.DB, error) {
	connector, err := duckdb.NewConnector(path, nil)
	if err != nil {
		return nil, err
	}
	return sql.OpenDB(connector), nil
}

// engineSaid is the engine's own message in an error, without the driver's words around it.
func engineSaid(err error) (string, bool) {
	var engine *duckdb.Error
	if !errors.As(err, &engine) {
		return "", false
	}
	return strings.TrimSpace(engine.Msg), true
}

// isEngines tells whether the engine itself has complained, and not the driver.
func isEngines(err error) bool {
	_, ok := engineSaid(err)
	return ok
}

// parameterNames asks the engine for a statement's parameters, sorted, each once. Of several statements in one text, such
// as those that make macros, all but the last have then run.
func (h *History) parameterNames(ctx context.Context, text string) ([]string, error) {
	var names []string
	err := h.conn.Raw(func(raw any) error {
		prepared, err := raw.(*duckdb.Conn).PrepareContext(ctx, text)
		if err != nil {
			return err
		}
		defer prepared.Close()
		for i := range prepared.NumInput() {
			name, err := prepared.(*duckdb.Stmt).ParamName(i + 1)
			if err != nil {
				return err
			}
			names = append(names, name)
		}
		return nil
	})
	slices.Sort(names)
	return slices.Compact(names), err
}

// isQuestion tells whether a text is one statement that only asks: a select, or the explanation of one. Prepare refuses
// several statements, where PrepareContext would run all but the last.
func (h *History) isQuestion(text string) (bool, error) {
	asks := false
	err := h.conn.Raw(func(raw any) error {
		prepared, err := raw.(*duckdb.Conn).Prepare(text)
		if err != nil {
			return err
		}
		defer prepared.Close()
		kind, err := prepared.(*duckdb.Stmt).StatementType()
		asks = kind == duckdb.STATEMENT_TYPE_SELECT || kind == duckdb.STATEMENT_TYPE_EXPLAIN
		return err
	})
	return asks, err
}
