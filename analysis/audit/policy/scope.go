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

// JudgeBy says what missing calibrations are judged by in this session until Forget. Call it before LookBack.
func JudgeBy(ctx context.Context, h *history.History, by Bench) error {
	var name any
	if by != TheHistory {
		name = string(by)
	}
	return h.Set(ctx, "measures/audit_judged_by", history.Params{"judged_by": name})
}

// A Bench is what missing calibrations are judged by.
type Bench string

// The benches. EachInsurer judges on an insurer's own jobs alone, as its bundle does; with EitherWay a finding is there that
// one of the two raises.
const (
	TheHistory  Bench = ""
	EachInsurer Bench = "insurer"
	EitherWay   Bench = "both"
)

// Forget lets the queries look at all jobs again, and together.
func Forget(ctx context.Context, h *history.History) error {
	if err := JudgeBy(ctx, h, TheHistory); err != nil {
		return err
	}
	return h.Set(ctx, "measures/audit_scope", history.Params{"scope": nil})
}
