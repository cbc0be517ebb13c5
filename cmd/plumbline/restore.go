package main

import (
	"context"
	"fmt"

	"plumbline/analysis/history"
	"plumbline/analysis/intake"
)

// isRestore tells whether an import is the folder of an export alone, into a history without any import: it then becomes
// the history that was exported, with its journal and its decisions.
func isRestore(ctx context.Context, h *history.History, o intake.Options) (bool, error) {
	if len(o.Files) != 1 || o.Kind != "" || o.Profile != "" || !history.IsExport(o.Files[0]) {
		return false, nil
	}
	return h.IsEmpty(ctx)
}

// restore makes the history what it was when it was exported.
func (a *app) restore(ctx context.Context, h *history.History, o intake.Options) error {
	if o.DryRun {
		rehearsal, err := history.InMemory(ctx)
		if err != nil {
			return err
		}
		defer rehearsal.Close()
		h = rehearsal
	}
	records, err := h.Restore(ctx, o.Files[0])
	if err != nil {
		return err
	}
	said := "%s restored from %s, with the journal, the rows set aside and the decisions of the history exported\n"
	if o.DryRun {
		said = "dry run: nothing was kept; %s would be restored from %s, with journal, rows set aside and decisions\n"
	}
	_, err = fmt.Fprintf(a.err, said, counted(records, "record"), o.Files[0])
	return err
}
