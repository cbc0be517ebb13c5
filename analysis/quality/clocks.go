package quality

import (
	"context"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// A Clocks is a shop of which two clocks seem to disagree: too many post-scans or road tests came a few minutes before the
// end of the attempt that they follow. Its findings are raised all the same, and name it in their details.
type Clocks struct {
	Shop          string
	Beside        string // post_scan | road_test
	N             int64  // jobs with both moments
	Early         int64  // of these, before the last attempt's end by less than 10 minutes
	MedianMinutes float64
	Findings      int64 // stale post-scans or missing road tests on the early ones
}

// Share is the part of the jobs that are early.
func (c Clocks) Share() stats.Proportion { return stats.Proportion{Count: c.Early, N: c.N} }

// ClocksApart lists the shops whose clocks seem to disagree. Of the filter only the shop counts. The history must have been
// looked back.
func ClocksApart(ctx context.Context, h *history.History, f Filter) ([]Clocks, error) {
	return history.Select[Clocks](ctx, h, "measures/clocks", history.Params{"shop": orNull(f.Shop)})
}
