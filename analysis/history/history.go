// Package history keeps a shop's calibration history in one DuckDB file: it opens and locks the file, lays and
// updates the schema, and is the only door to SQL. It is the only package that imports the database driver.
//
// What the records mean belongs to the SQL in queries/; reading files belongs to intake; this package neither
// interprets a record nor prints anything.
package history

import (
	"context"
	"database/sql"
	"fmt"
)

// A History is an open history file. It holds one connection, so that temporary tables are seen by every query.
type History struct {
	path string
	db   *sql.DB
	conn *sql.Conn
	tx   *sql.Tx // the open transaction, nil outside Change
}

// Path is the file's name as it was given; empty for a history in memory.
func (h *History) Path() string { return h.path }

// Close lets go of the file and its lock.
func (h *History) Close() error {
	connErr := h.conn.Close()
	if err := h.db.Close(); err != nil {
		return fmt.Errorf("close %s: %w", h.path, err)
	}
	if connErr != nil {
		return fmt.Errorf("close %s: %w", h.path, connErr)
	}
	return nil
}

// Change runs do in one transaction: everything that it writes is kept when it returns nil, nothing when it returns
// an error or the process dies.
func (h *History) Change(ctx context.Context, do func() error) error {
	tx, err := h.conn.BeginTx(ctx, nil)
	if err != nil {
		return fmt.Errorf("change %s: %w", h.path, err)
	}
	h.tx = tx
	defer func() { h.tx = nil }()
	if err := do(); err != nil {
		if rollback := tx.Rollback(); rollback != nil && rollback != sql.ErrTxDone {
			return fmt.Errorf("%w (and the history could not be rolled back: %v)", err, rollback)
		}
		return err
	}
	if err := tx.Commit(); err != nil {
		return fmt.Errorf("change %s: %w", h.path, err)
	}
	return nil
}
