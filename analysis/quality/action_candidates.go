package quality

import (
	"context"
	"time"

	"plumbline/analysis/history"
)

// An ActionCandidate is a change that the records show and nobody has named: the first use of another software version or
// supplier in a shop.
type ActionCandidate struct {
	Shop        string
	SubjectKind string
	Subject     string
	FirstSeen   time.Time
	Tasks       int64   // with it, since then
	Before      *string // what most tasks of the 90 days before had; nil where there was none
}

// ActionCandidates lists them, the latest first. The history must have been looked back.
func ActionCandidates(ctx context.Context, h *history.History, f Filter) ([]ActionCandidate, error) {
	return history.Select[ActionCandidate](ctx, h, "measures/action_candidates", f.scope())
}

// ActionSubjects lists what a shop's records name of a kind of subject.
func ActionSubjects(ctx context.Context, h *history.History, shop, kind string) ([]string, error) {
	return history.Select[string](ctx, h, "measures/action_subjects", history.Params{"shop": shop, "kind": kind})
}
