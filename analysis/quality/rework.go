package quality

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/history"
)

// The causes of work done again. An attempt that is both, a repeat within a comeback's visit, counts as comeback.
const (
	RepeatCause   = "repeat"   // follows another attempt of the same method in its task
	ComebackCause = "comeback" // in the visit of a counted comeback
)

// A ReworkLine is the work done again in one month for one cause. Hours are from start to end of the attempts that
// have an end after their start; WithoutEnd are those that have no end. Times the labor rate, hours are its cost.
type ReworkLine struct {
	Month      string // 2026-03, of the attempt's start
	Cause      string // repeat | comeback
	Attempts   int64
	WithoutEnd int64
	Hours      float64
}

// Rework lists the work done again by month and cause, the earliest month first.
func Rework(ctx context.Context, h *history.History, f Filter) ([]ReworkLine, error) {
	return history.Select[ReworkLine](ctx, h, "measures/rework", f.scope())
}

// oneOf refuses a word that is not in a list, and gives the list.
func oneOf(what, word string, allowed []string) error {
	if slices.Contains(allowed, word) {
		return nil
	}
	return fmt.Errorf("%s %q: it is one of %s", what, word, strings.Join(allowed, ", "))
}
