package quality

import (
	"context"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// A Tally is how many findings of one kind and class a month holds.
type Tally struct {
	Kind      string
	Class     *string
	Severity  string
	Month     string
	Findings  int64
	Jobs      int64 // that they are about
	Confirmed int64
	Dismissed int64
}

// FindingsByMonth counts findings. The history must have been looked back.
func FindingsByMonth(ctx context.Context, h *history.History, f Filter) ([]Tally, error) {
	return history.Select[Tally](ctx, h, "measures/findings_by_month", f.scope())
}

// A Gap is the share of a shop's calibrated, closed jobs that have a finding of one kind.
type Gap struct {
	Shop  string
	Kind  string
	Jobs  int64
	Count int64
}

// Proportion is that share.
func (g Gap) Proportion() stats.Proportion { return stats.Proportion{Count: g.Count, N: g.Jobs} }

// GapsByShop counts, for each shop and each of the filter's kinds, the jobs with such a finding; a kind that never
// occurs has a row too. A dismissed finding is no gap. The history must have been looked back.
func GapsByShop(ctx context.Context, h *history.History, f Filter) ([]Gap, error) {
	return history.Select[Gap](ctx, h, "measures/gaps_by_shop", f.with(history.Params{"kinds": joined(f.Kinds)}))
}

// A Waiting is how many findings of a severity nobody has confirmed or dismissed.
type Waiting struct {
	Severity string
	Findings int64
	Oldest   *time.Time
}

// Undecided counts what waits for a decision, the gravest first. The history must have been looked back.
func Undecided(ctx context.Context, h *history.History, shop string) ([]Waiting, error) {
	return history.Select[Waiting](ctx, h, "measures/undecided", history.Params{"shop": orNull(shop)})
}
