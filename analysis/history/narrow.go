package history

import (
	"context"
	"database/sql"

	"golang.org/x/sync/errgroup"

	"plumbline/analysis/layout"
	"plumbline/queries"
)

// Narrow has the questions that follow read the records of a few jobs in place of all: those that the query scope names by
// shop and job_no. names is a query of the jobs by which names are spelled, with make, model and insurer. Of a history that
// is open for writing, or is of an older version, all records are read as before.
func (h *History) Narrow(ctx context.Context, scope, names string, params Params) error {
	if h.look == nil || h.beside != "" || h.isBridged {
		return nil
	}
	for _, table := range []struct{ name, query string }{{"narrow_scope", scope}, {"known_jobs", names}} {
		text, err := queries.SQL(table.query)
		if err != nil {
			return err
		}
		h.look = nil // of the history itself
		if _, err := h.Run(ctx, Statement{table.query, h.create("table", table.name, text)}, params); err != nil {
			return err
		}
	}
	if err := h.spellNames(ctx); err != nil {
		return err
	}
	var all errgroup.Group
	for i := range layout.Kinds {
		if kind := &layout.Kinds[i]; kind.HasJob() {
			all.Go(func() error { return h.narrowKind(ctx, kind) })
		}
	}
	if err := all.Wait(); err != nil {
		return err
	}
	h.isNarrow, h.look = true, newLook()
	h.look.shapes["spellings"].once.Do(func() {}) // they stand
	return nil
}

// Widen has the questions that follow read all records again.
func (h *History) Widen(ctx context.Context) error {
	if !h.isNarrow {
		return nil
	}
	for i := range layout.Kinds {
		if kind := &layout.Kinds[i]; kind.HasJob() {
			if err := h.run(ctx, kind.Name, "drop view memory.main."+kind.Name); err != nil {
				return err
			}
		}
	}
	h.isNarrow, h.look = false, newLook()
	return nil
}

// spellNames works out how names are spelled, by the jobs just chosen. No pane has its names shown in another spelling.
func (h *History) spellNames(ctx context.Context) error {
	return h.run(ctx, "spellings", h.create("table", "known_glass", "select null::varchar as brand, null::varchar as supplier")+";"+
		h.create("table", "spellings", queries.Shape("spellings").SQL)+"; drop table known_glass; drop table known_jobs")
}

// narrowKind puts the records of the jobs in scope before the file's, with their numbers.
func (h *History) narrowKind(ctx context.Context, kind *layout.Kind) error {
	return h.inLane(func(lane *sql.Conn) error {
		_, err := lane.ExecContext(ctx, h.create("table", "narrow_"+kind.Name, "select record.*, record.rowid as row_number from history.main."+
			kind.Name+" as record semi join narrow_scope using (shop, job_no)")+";"+
			h.create("view", kind.Name, "select * exclude (row_number), row_number as rowid from narrow_"+kind.Name))
		if err != nil {
			return queryError(kind.Name, err)
		}
		return nil
	})
}
