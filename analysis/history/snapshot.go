package history

import (
	"context"
	"time"

	"plumbline/queries"
)

// Asked is the point of view of a reader. The zero value is the default: as of the latest event, a window of 90 days.
type Asked struct {
	AsOf       *time.Time // nil: the latest event of the history
	WindowDays int        // 0: 90
}

// settled are the shared shapes that many questions read, kept as temporary tables for as long as the history is
// open. All others stay views over them.
var settled = map[string]bool{
	"known_jobs": true, "spellings": true, "attempts": true, "tasks": true, "known_scans": true, "known_faults": true,
	"visits": true, "comebacks": true, "follow_ups": true, "post_scan_faults": true, "outcome_units": true,
	"described_tasks": true,
}

// settledWithFindings are kept besides where the findings are wanted: measured values are many.
var settledWithFindings = map[string]bool{"readings": true, "ride_heights": true, "findings": true}

// LookBack fixes the point of view for the queries that follow: as-of and window, and the shared shapes as they stood
// then. Findings are settled only where the caller reads them, for they take as long as all the others together.
func (h *History) LookBack(ctx context.Context, asked Asked, withFindings bool) error {
	if asked.WindowDays == 0 {
		asked.WindowDays = 90
	}
	err := h.Exec(ctx, "measures/look_back", Params{"as_of": asked.AsOf, "window_days": asked.WindowDays})
	if err != nil {
		return err
	}
	for _, view := range queries.Views() {
		if err := h.settle(ctx, view, withFindings); err != nil {
			return err
		}
	}
	return nil
}

// settle puts this version's definition of a view before the file's own: temporary names are looked up first.
func (h *History) settle(ctx context.Context, view queries.View, withFindings bool) error {
	what := "view"
	switch {
	case view.Name == "latest_event": // look_back has read it
		return nil
	case settled[view.Name], withFindings && settledWithFindings[view.Name]:
		what = "table"
	}
	return h.run(ctx, view.Name, "create or replace temporary "+what+" "+view.Name+" as\n"+view.SQL)
}

// View tells the point of view that LookBack has fixed; AsOf is nil in a history without records.
func (h *History) View(ctx context.Context) (Asked, error) {
	views, err := Select[Asked](ctx, h, "measures/asked", nil)
	if err != nil || len(views) != 1 {
		return Asked{}, err
	}
	return views[0], nil
}
