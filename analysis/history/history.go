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

// A History is an open history file. It may be asked from several goroutines at once; only a reader answers them side
// by side.
type History struct {
	path   string
	db     *sql.DB
	conn   *sql.Conn      // a writer's only connection; of a reader, the one for answers that are read row by row
	lanes  chan *sql.Conn // connections that are free to answer
	all    []*sql.Conn    // every connection, conn among them
	beside string         // how a table is made that is not part of the file: temporary, or nothing
	look   *look          // nil before LookBack

	exports      []string // folders that are read in place of a file; nil where there is a file
	isNarrow     bool     // only the records of some jobs are read
	isBridged    bool     // the file is of an older version, and views stand before its tables
	migratedFrom int      // the file's version before it was opened; 0 where it was today's
}

// Path is the file's name as it was given; empty for a history in memory.
func (h *History) Path() string { return h.path }

// Close lets go of the file and its lock.
func (h *History) Close() error {
	var fault error
	for _, conn := range h.all {
		if err := conn.Close(); err != nil {
			fault = err
		}
	}
	if err := h.db.Close(); err != nil {
		fault = err
	}
	if fault != nil {
		return fmt.Errorf("close %s: %w", h.path, fault)
	}
	return nil
}

// inLane runs do with a connection of its own.
func (h *History) inLane(do func(*sql.Conn) error) error {
	lane := <-h.lanes
	defer func() { h.lanes <- lane }()
	return do(lane)
}

// Change runs do in one transaction: everything that it writes is kept when it returns nil, nothing when it returns
// an error or the process dies.
func (h *History) Change(ctx context.Context, do func() error) error {
	tx, err := h.conn.BeginTx(ctx, nil)
	if err != nil {
		return fmt.Errorf("change %s: %w", h.path, err)
	}
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
