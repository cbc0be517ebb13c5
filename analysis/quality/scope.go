package quality

import (
	"context"
	"time"

	"plumbline/analysis/history"
)

// A Scope says as of when, over which records and up to which month a reader sees the history.
type Scope struct {
	AsOf        *time.Time // nil in an empty history
	WindowDays  int
	LastMonth   *string // last month that holds a unit of an outcome, as 2026-03; nil where none does
	FirstOpened *time.Time
	Jobs        int64
	Calibrated  int64  // of these, with a calibration attempt
	Shops       string // of these, joined by a comma and a space
}

// ReadScope asks how far the chosen records reach. The history must have been looked back.
func ReadScope(ctx context.Context, h *history.History, f Filter) (Scope, error) {
	return only[Scope](ctx, h, "measures/review_scope", f.scope())
}

// A Volume is how much was done in a span of time.
type Volume struct {
	Opened           int64
	Closed           int64
	CalibratedClosed int64 // of the closed ones
	Tasks            int64
	Attempts         int64
	Returns          int64 // counted comebacks that opened in it
}

// ReadVolume counts what was done in the filter's span of time.
func ReadVolume(ctx context.Context, h *history.History, f Filter) (Volume, error) {
	return only[Volume](ctx, h, "measures/volume", f.scope())
}

// only runs a query of one row.
func only[Row any](ctx context.Context, h *history.History, name string, params history.Params) (Row, error) {
	rows, err := history.Select[Row](ctx, h, name, params)
	if err != nil || len(rows) == 0 {
		var none Row
		return none, err
	}
	return rows[0], nil
}
