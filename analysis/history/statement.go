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
func (h *History) Run(ctx context.Context, s Statement, params Params) (int64, error) {
	args, err := h.prepared(ctx, s, params)
	if err != nil {
		return 0, err
	}
	result, err := h.conn.ExecContext(ctx, s.SQL, args...)
	if err != nil {
		return 0, queryError(s.Name, err)
	}
	return result.RowsAffected()
}

// SelectStatement runs the statement and gives its rows as structs, as Select does.
func SelectStatement[Row any](ctx context.Context, h *History, s Statement, params Params) ([]Row, error) {
	result := []Row{}
	err := h.answer(ctx, s, params, func(rows *sql.Rows) error { return sqlscan.ScanAll(&result, rows) })
	if err != nil {
		return nil, err
	}
	return result, nil
}

// QueryStatement runs the statement and leaves its rows to be read one by one, as Query does.
func (h *History) QueryStatement(ctx context.Context, s Statement, params Params) (*sql.Rows, error) {
	args, err := h.prepared(ctx, s, params)
	if err != nil {
		return nil, err
	}
	rows, err := h.conn.QueryContext(ctx, s.SQL, args...)
	if err != nil {
		return nil, queryError(s.Name, err)
	}
	return rows, nil
}

// ColumnNames tells what columns a select has, without its rows.
func (h *History) ColumnNames(ctx context.Context, s Statement, params Params) ([]string, error) {
	rows, err := h.QueryStatement(ctx, s, params)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	return rows.Columns()
}
