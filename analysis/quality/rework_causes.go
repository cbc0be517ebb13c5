package quality

import (
	"context"
	"time"

	"plumbline/analysis/history"
)

// ReworkGroupings lists by what work done again can be summed: of itself, and of the work that it goes back to.
var ReworkGroupings = []string{"technician", "equipment", "system", "shop", "failure_code", "stand", "source"}

// A ReworkCause is the work done again that one group and cause account for. A group that is nil lacks the value: by
// failure code the work before completed or gave no code, by source it was no front camera.
type ReworkCause struct {
	Group      *string `db:"group_name"`
	Cause      string  // repeat or comeback
	Attempts   int64
	WithoutEnd int64
	Hours      float64
}

// ReworkBy sums the work done again, the group with most hours first. The history must have been looked back.
func ReworkBy(ctx context.Context, h *history.History, by string, f Filter) ([]ReworkCause, error) {
	if err := oneOf("rework by", by, ReworkGroupings); err != nil {
		return nil, err
	}
	return history.Select[ReworkCause](ctx, h, "measures/rework_by", f.with(history.Params{"by": by}))
}

// A ReworkAttempt is one attempt that is work done again, with the work that it goes back to.
type ReworkAttempt struct {
	Shop, JobNo    string
	VIN            *string `db:"vin"`
	System         string
	Position       *string
	AttemptNo      int64
	Cause          string
	StartedAt      time.Time
	Hours          *float64 // nil where it has no end
	Technician     *string
	FailureCode    *string
	FailureText    *string
	Stand          *string
	Source         *string
	PriorShop      *string
	PriorJobNo     *string
	PriorAttemptNo *int64
}

// ReworkAttempts lists them, the longest first: where each hour of a sum went. The history must have been looked back.
func ReworkAttempts(ctx context.Context, h *history.History, f Filter) ([]ReworkAttempt, error) {
	return history.Select[ReworkAttempt](ctx, h, "measures/rework_list", f.scope())
}
