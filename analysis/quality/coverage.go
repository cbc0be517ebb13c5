package quality

import (
	"context"

	"plumbline/analysis/history"
)

// A Coverage says how many tasks a grouping holds, and how many it leaves out because their record lacks the value.
type Coverage struct {
	Grouping string
	N        int64 // tasks in a group
	LeftOut  int64
}

// Coverages counts the tasks of every grouping, in the order of their names.
func Coverages(ctx context.Context, h *history.History, f Filter) ([]Coverage, error) {
	return history.Select[Coverage](ctx, h, "measures/group_coverage", f.scope())
}
