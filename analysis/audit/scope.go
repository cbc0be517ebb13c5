package audit

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"plumbline/analysis/history"
)

// set makes the scope's jobs those that the audit's queries look at, and counts them.
func (s Scope) set(ctx context.Context, h *history.History) (dueRow, error) {
	text, err := json.Marshal(s)
	if err != nil {
		return dueRow{}, fmt.Errorf("scope: %w", err)
	}
	if err := h.Set(ctx, "measures/audit_scope", history.Params{"scope": string(text)}); err != nil {
		return dueRow{}, err
	}
	rows, err := history.Select[dueRow](ctx, h, "measures/audit_due", nil)
	if err != nil {
		return dueRow{}, err
	}
	return rows[0], nil
}

// forget lets the queries look at all jobs again.
func forget(ctx context.Context, h *history.History) error {
	return h.Set(ctx, "measures/audit_scope", history.Params{"scope": nil})
}

// momentOrNone writes a bound of a period; none is empty.
func momentOrNone(t *time.Time) string {
	if t == nil {
		return ""
	}
	return moment(*t)
}

// A NoJobsError says that the insurer has no job in the period, and when it has some.
type NoJobsError struct {
	Insurer     string
	First, Last *time.Time // of all its jobs
}

// Error is one line with what to do.
func (e *NoJobsError) Error() string {
	text := fmt.Sprintf("“%s” has no job that was opened in this period", visible(e.Insurer))
	if e.First != nil && e.Last != nil {
		text += fmt.Sprintf("; its jobs were opened from %s to %s",
			e.First.Format(time.DateOnly), e.Last.Format(time.DateOnly))
	}
	return text
}
