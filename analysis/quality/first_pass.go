package quality

import (
	"context"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// A SystemResult is how the tasks on one driver-assistance system went.
type SystemResult struct {
	System       string
	Tasks        int64
	NotFirstPass int64
	AfterPass    int64 // of these, done again after a completed attempt of the same method
	Unresolved   int64 // of these, in a closed job and not completed at the last attempt
	Attempts     int64
}

// Missed is the share of tasks that were not first pass.
func (s SystemResult) Missed() stats.Proportion {
	return stats.Proportion{Count: s.NotFirstPass, N: s.Tasks}
}

// FirstPassBySystem counts tasks by system, the commonest system first.
func FirstPassBySystem(ctx context.Context, h *history.History, f Filter) ([]SystemResult, error) {
	return history.Select[SystemResult](ctx, h, "measures/first_pass_by_system", f.scope())
}
