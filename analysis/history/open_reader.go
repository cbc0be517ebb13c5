package history

import (
	"context"
	"database/sql"
	"errors"
	"runtime"
	"strings"
)

// searchPath has what a reader works out for itself found before what the file holds.
const searchPath = "set search_path = 'memory.main,history.main,memory.superseded,history.superseded'"

// openReader opens an engine in memory and attaches the file read-only: what stands beside the file is then seen by all
// connections, which answer side by side, and today's macros come before the file's. Read-only alone would still let a
// question write and read other files; settings take care of that.
func openReader(ctx context.Context, path string, settings ...string) (*History, error) {
	h, version, err := attached(ctx, path)
	if err != nil {
		return nil, err
	}
	if err := h.putTodayBefore(ctx, version); err != nil {
		return nil, h.orClose(err)
	}
	if h.exports != nil {
		settings = nil // questions go on reading the folder's files
	}
	for _, setting := range settings {
		if err := h.run(ctx, "settings", setting); err != nil {
			return nil, h.orClose(err)
		}
	}
	return h, h.openLanes(ctx)
}

// attached opens an engine in memory with the file beside it, read-only, and tells the file's version.
func attached(ctx context.Context, path string) (*History, int, error) {
	if err := mustExist(path); err != nil {
		return nil, 0, err
	}
	db, err := engineAt("")
	if err != nil {
		return nil, 0, openError(path, err)
	}
	h := &History{path: path, db: db, lanes: make(chan *sql.Conn, lanes()), exports: exportsIn(path)}
	if err := h.attach(ctx); err != nil {
		if !errors.Is(err, ErrMemory) {
			err = openError(path, err)
		}
		return nil, 0, h.orClose(err)
	}
	version, err := h.checkVersion(ctx)
	return h, version, h.orClose(err)
}

func lanes() int { return min(runtime.GOMAXPROCS(0), 4) }

// attach makes the first connection and puts the file beside the engine's memory. The engine takes no parameters for
// names of files.
//
// One thread a question is the quickest: two lanes of one thread settle all shapes of 200,000 jobs in two thirds of the
// processor time that one lane of two threads takes, for the threads of a question wait for each other. Nor would
// preserve_insertion_order=false do: version 1.1.3 then now and then loses a row of a union (2 of 60 runs of the same
// question).
func (h *History) attach(ctx context.Context) error {
	if err := h.connect(ctx); err != nil {
		return err
	}
	quoted := strings.ReplaceAll(h.path, "'", "''")
	if err := h.limit(ctx); err != nil {
		return err
	}
	statements := []string{"set threads = 1"}
	if h.exports == nil {
		statements = append(statements, "attach '"+quoted+"' as history (read_only)",
			"set search_path = 'memory.main,history.main'") // a foreign database has no more
	}
	for _, statement := range statements {
		if _, err := h.conn.ExecContext(ctx, statement); err != nil {
			return err
		}
	}
	h.lanes <- h.conn // for the first questions, while there is no other
	if h.exports != nil {
		return h.layOver(ctx)
	}
	return nil
}

// openLanes makes the connections that answer, once what they read stands. The history is closed where it cannot.
func (h *History) openLanes(ctx context.Context) error {
	<-h.lanes
	for range cap(h.lanes) {
		if err := h.connect(ctx); err != nil {
			return h.orClose(openError(h.path, err))
		}
		h.lanes <- h.all[len(h.all)-1]
	}
	for _, conn := range h.all {
		if _, err := conn.ExecContext(ctx, searchPath); err != nil {
			return h.orClose(openError(h.path, err))
		}
	}
	return nil
}
