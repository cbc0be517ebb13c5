package history

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/georgysavva/scany/v2/sqlscan"

	"plumbline/queries"
)

// Params are the values of a query's parameters by name, without the dollar sign. A time is bound as text and cast in
// the query; a nil, or a nil pointer, is null.
type Params map[string]any

// Select runs the named query and gives its rows as structs: a column goes to the field of the same name in snake
// case, or with the tag `db`.
func Select[Row any](ctx context.Context, h *History, name string, params Params) ([]Row, error) {
	text, err := queries.SQL(name)
	if err != nil {
		return nil, err
	}
	return SelectStatement[Row](ctx, h, Statement{name, text}, params)
}

// One runs a query of one row and one column.
func One[Value any](ctx context.Context, h *History, name string, params Params) (Value, error) {
	var value Value
	text, err := queries.SQL(name)
	if err != nil {
		return value, err
	}
	err = h.answer(ctx, Statement{name, text}, params, func(rows *sql.Rows) error {
		return sqlscan.ScanOne(&value, rows)
	})
	return value, err
}

// Query runs the named query and leaves its rows to be read one by one; the caller closes them before the next such
// question.
func (h *History) Query(ctx context.Context, name string, params Params) (*sql.Rows, error) {
	text, err := queries.SQL(name)
	if err != nil {
		return nil, err
	}
	return h.QueryStatement(ctx, Statement{name, text}, params)
}

// Exec runs the named statement for its effect.
func (h *History) Exec(ctx context.Context, name string, params Params) error {
	_, err := h.Count(ctx, name, params)
	return err
}

// Count runs the named statement for its effect and says how many rows it changed.
func (h *History) Count(ctx context.Context, name string, params Params) (int64, error) {
	text, err := queries.SQL(name)
	if err != nil {
		return 0, err
	}
	return h.Run(ctx, Statement{name, text}, params)
}

// Set runs the named statement, which sets a variable of the session, in every connection.
func (h *History) Set(ctx context.Context, name string, params Params) error {
	text, err := queries.SQL(name)
	if err != nil {
		return err
	}
	args, err := h.prepared(ctx, Statement{name, text}, params)
	if err != nil {
		return err
	}
	for _, conn := range h.all {
		if _, err := conn.ExecContext(ctx, text, args...); err != nil {
			return queryError(name, err)
		}
	}
	return nil
}

// answer runs a select in a lane of its own and has its rows read.
func (h *History) answer(ctx context.Context, s Statement, params Params, read func(*sql.Rows) error) error {
	args, err := h.prepared(ctx, s, params)
	if err != nil {
		return err
	}
	return h.inLane(func(lane *sql.Conn) error {
		rows, err := lane.QueryContext(ctx, s.SQL, args...)
		if err != nil {
			return queryError(s.Name, err)
		}
		if err := read(rows); err != nil {
			return queryError(s.Name, err)
		}
		return nil
	})
}

// prepared settles the shapes that the statement reads, and gives its values as the driver takes them.
func (h *History) prepared(ctx context.Context, s Statement, params Params) ([]any, error) {
	if err := h.settle(ctx, s.SQL); err != nil {
		return nil, err
	}
	return h.arguments(ctx, s.Name, s.SQL, params)
}

// run executes statements of our own that take no values.
func (h *History) run(ctx context.Context, name, statements string) error {
	if _, err := h.conn.ExecContext(ctx, statements); err != nil {
		return queryError(name, err)
	}
	return nil
}

// arguments matches the values with the statement's parameters by name. The driver would bind a misspelled name by
// its position without a word, so every call is checked.
func (h *History) arguments(ctx context.Context, name, text string, params Params) ([]any, error) {
	if len(params) == 0 && !strings.Contains(text, "$") {
		return nil, nil
	}
	wanted, err := h.parameterNames(ctx, text)
	if err != nil {
		return nil, queryError(name, err)
	}
	given := slices.Sorted(maps.Keys(params))
	if !slices.Equal(wanted, given) {
		return nil, fmt.Errorf("%s.sql takes the parameters %v, not %v", name, wanted, given)
	}
	args := make([]any, 0, len(given))
	for _, key := range given {
		args = append(args, sql.Named(key, bindable(params[key])))
	}
	return args, nil
}

// bindable turns a value into one that the driver binds to a named parameter: times become text.
func bindable(value any) driver.Value {
	switch v := value.(type) {
	case time.Time:
		return v.Format("2006-01-02 15:04:05.999999")
	case *time.Time:
		if v == nil {
			return nil
		}
		return bindable(*v)
	case *string:
		if v == nil {
			return nil
		}
		return *v
	default:
		return v
	}
}
