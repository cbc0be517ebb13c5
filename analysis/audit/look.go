package audit

import (
	"context"
	"time"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/history"
)

// LookBack fixes the point of view that bundles have: findings by the policy, each insurer's judged apart, and as of the end of
// a day, for the second of the latest event is somebody else's to tell. The point of view is left with policy.Forget and
// another look back.
func LookBack(ctx context.Context, h *history.History, p policy.Policy, asked history.Asked) error {
	if err := p.Require(ctx, h); err != nil {
		return err
	}
	if err := policy.JudgeBy(ctx, h, policy.EachInsurer); err != nil {
		return err
	}
	if err := h.LookBack(ctx, asked); err != nil || asked.AsOf != nil {
		return err
	}
	view, err := h.View(ctx)
	if err != nil || view.AsOf == nil {
		return err
	}
	end := endOfDay(*view.AsOf)
	asked.AsOf = &end
	return h.LookBack(ctx, asked)
}

// endOfDay is the last second of a moment's day.
func endOfDay(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 23, 59, 59, 0, t.Location())
}
