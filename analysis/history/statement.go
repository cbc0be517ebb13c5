package history

import (
	"context"
	"database/sql"

	"github.com/georgysavva/scany/v2/sqlscan"
)

// A Statement is SQL that its caller has put together from identifiers of this project, for a table or file whose
// columns are known only at the moment. Values are bound as in any other query; Name stands in messages.
type Statement struct {
	Name string
	SQL  string
}

// Run executes the statement for its effect and says how many rows it changed.
func (h *History) Run(ctx context.Context, statement Statement, params Params) (int64, error) {
	args, err := h.arguments(ctx, statement.Name, statement.SQL, params)
	if err != nil {
		return 0, err
	}
	result, err := h.conn.ExecContext(ctx, statement.SQL, args...)
	if err != nil {
		return 0, queryError(statement.Name, err)
	}
	return result.RowsAffected()
}

// SelectStatement runs the statement and gives its rows as structs, as Select does.
func SelectStatement[Row any](ctx context.Context, h *History, statement Statement, params Params) ([]Row, error) {
	args, err := h.arguments(ctx, statement.Name, statement.SQL, params)
	if err != nil {
		return nil, err
	}
	rows, err := h.conn.QueryContext(ctx, statement.SQL, args...)
	if err != nil {
		return nil, queryError(statement.Name, err)
	}
	return scanRows[Row](statement.Name, rows)
}

func scanRows[Row any](name string, rows *sql.Rows) ([]Row, error) {
	result := []Row{}
	if err := sqlscan.ScanAll(&result, rows); err != nil {
		return nil, queryError(name, err)
	}
	return result, nil
}

// ColumnNames tells what columns a select has, without its rows.
func (h *History) ColumnNames(ctx context.Context, statement Statement, params Params) ([]string, error) {
	args, err := h.arguments(ctx, statement.Name, statement.SQL, params)
	if err != nil {
		return nil, err
	}
	rows, err := h.conn.QueryContext(ctx, statement.SQL, args...)
	if err != nil {
		return nil, queryError(statement.Name, err)
	}
	defer rows.Close()
	return rows.Columns()
}
