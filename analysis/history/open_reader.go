package history

import (
	"context"
	"database/sql"
	"runtime"
	"strings"

	"github.com/marcboeker/go-duckdb"
)

// searchPath has what a reader works out for itself found before what the file holds.
const searchPath = "set search_path = 'memory.main,history.main,history.superseded'"

// openReader opens an engine in memory and attaches the file read-only: tables beside the file are then seen by all
// connections, which answer side by side. Read-only alone would still let a question write and read other files;
// settings take care of that.
func openReader(ctx context.Context, path string, settings ...string) (*History, error) {
	if err := mustExist(path); err != nil {
		return nil, err
	}
	connector, err := duckdb.NewConnector("", nil)
	if err != nil {
		return nil, openError(path, err)
	}
	lanes := min(runtime.GOMAXPROCS(0), 4)
	h := &History{path: path, db: sql.OpenDB(connector), lanes: make(chan *sql.Conn, lanes)}
	if err := h.attach(ctx, settings); err != nil {
		return nil, h.orClose(openError(path, err))
	}
	if err := h.checkVersion(ctx); err != nil {
		return nil, h.orClose(err)
	}
	if err := h.openLanes(ctx, lanes); err != nil {
		return nil, h.orClose(openError(path, err))
	}
	return h, nil
}

// attach makes the first connection and puts the file beside the engine's memory. The engine takes no parameters for
// names of files.
//
// One thread a question is the quickest: two lanes of one thread settle all shapes of 200,000 jobs in two thirds of the
// processor time that one lane of two threads takes, for the threads of a question wait for each other. Nor would
// preserve_insertion_order=false do: version 1.1.3 then now and then loses a row of a union (2 of 60 runs of the same
// question).
func (h *History) attach(ctx context.Context, settings []string) error {
	if err := h.connect(ctx); err != nil {
		return err
	}
	quoted := strings.ReplaceAll(h.path, "'", "''")
	statements := append([]string{
		"attach '" + quoted + "' as history (read_only)",
		"set search_path = 'memory.main,history.main'",
		"set temp_directory = '" + quoted + ".tmp'", // beside the file, as a writer's is
		"set threads = 1",
	}, settings...)
	for _, statement := range statements {
		if _, err := h.conn.ExecContext(ctx, statement); err != nil {
			return err
		}
	}
	h.lanes <- h.conn // for the first questions, while there is no other
	return nil
}

// openLanes makes the connections that answer, once the file is known to be a history.
func (h *History) openLanes(ctx context.Context, lanes int) error {
	<-h.lanes
	for range lanes {
		if err := h.connect(ctx); err != nil {
			return err
		}
		h.lanes <- h.all[len(h.all)-1]
	}
	for _, conn := range h.all {
		if _, err := conn.ExecContext(ctx, searchPath); err != nil {
			return err
		}
	}
	return nil
}
