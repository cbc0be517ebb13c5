package policy

import (
	"context"
	"encoding/json"
	"fmt"

	"plumbline/analysis/history"
)

// Set makes the scope's jobs those that the audit's queries look at, and counts them.
func (s Scope) Set(ctx context.Context, h *history.History) (Due, error) {
	text, err := json.Marshal(s)
	if err != nil {
		return Due{}, fmt.Errorf("scope: %w", err)
	}
	if err := h.Set(ctx, "measures/audit_scope", history.Params{"scope": string(text)}); err != nil {
		return Due{}, err
	}
	rows, err := history.Select[Due](ctx, h, "measures/audit_due", nil)
	if err != nil {
		return Due{}, err
	}
	return rows[0], nil
}

// JudgeApart has missing calibrations judged on each insurer's own jobs alone, as in its bundle, in this session until
// Forget. Call it before LookBack.
func JudgeApart(ctx context.Context, h *history.History) error {
	return h.Set(ctx, "measures/audit_apart", history.Params{"apart": true})
}

// Forget lets the queries look at all jobs again, and together.
func Forget(ctx context.Context, h *history.History) error {
	if err := h.Set(ctx, "measures/audit_apart", history.Params{"apart": nil}); err != nil {
		return err
	}
	return h.Set(ctx, "measures/audit_scope", history.Params{"scope": nil})
}
