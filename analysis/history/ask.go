package history

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"

	"plumbline/queries"
)

// Ask runs a user's own question. Only a history opened with OpenReader keeps it from doing harm; statements other than
// a single select are refused all the same, so that nobody takes a silent no for a done.
func (h *History) Ask(ctx context.Context, text string) (*sql.Rows, error) {
	if err := h.mustBeSelect(text); err != nil {
		return nil, err
	}
	if err := h.settle(ctx, text); err != nil {
		return nil, err
	}
	rows, err := h.conn.QueryContext(ctx, text)
	if err != nil {
		return nil, askError(err)
	}
	return rows, nil
}

// AskNamed runs one of our queries with the parameters of it that are given as typed values or as text; any other is
// null. A text for a parameter that the query does not have is an error.
func (h *History) AskNamed(ctx context.Context, name string, typed Params, texts map[string]string) (*sql.Rows, error) {
	text, err := queries.SQL(name)
	if err != nil {
		return nil, err
	}
	wanted, err := h.parameterNames(ctx, text)
	if err != nil {
		return nil, queryError(name, err)
	}
	params := Params{}
	for _, parameter := range wanted {
		params[parameter] = typed[parameter]
		if value, given := texts[parameter]; given {
			params[parameter] = value
		}
	}
	for given := range texts {
		if _, known := params[given]; !known {
			return nil, fmt.Errorf("query %s has no parameter %q; it takes %s", name, given, strings.Join(wanted, ", "))
		}
	}
	return h.Query(ctx, name, params)
}

var errNotOneSelect = errors.New("--sql takes a single SELECT; the history is only read")

func (h *History) mustBeSelect(text string) error {
	asks, err := h.isQuestion(text)
	switch {
	case err != nil && isEngines(err):
		return askError(err)
	case err != nil || !asks:
		return errNotOneSelect
	}
	return nil
}

// askError passes on what the engine says of a user's own text, without the driver's words around it.
func askError(err error) error {
	if said, ok := engineSaid(err); ok {
		return fmt.Errorf("--sql: %s", said)
	}
	return fmt.Errorf("--sql: %w", err)
}
