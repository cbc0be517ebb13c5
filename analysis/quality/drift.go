package quality

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// DriftGroupings lists by what measured values can be seen to drift: the stand or the board.
var DriftGroupings = []string{"equipment", "target"}

// driftTolerance is every tolerance on the scale of deviations.
var driftTolerance = stats.Tolerance{Lower: -1, Upper: 1, HasLower: true, HasUpper: true}

// A Drift tells how one quantity, measured on one stand or with one board, lies in its tolerance and whether its level
// moved. Levels, sigma and limits are deviations from the middle of the tolerance in half widths, -1 and 1 being its
// bounds, so that vehicles with different tolerances are one series; times HalfWidth they are in Unit. Capability is
// against the tolerance. Center, sigma and limits are those of the time before the shift where there is a clear one.
type Drift struct {
	Group     string
	Quantity  string
	Unit      string
	HalfWidth *float64 // nil where the tolerances differ in width
	N         int64
	LeftOut   int64 // readings that a slip of the unit explains
	Outside   int64 // readings outside their tolerance
	Mean      float64
	Center    float64
	Sigma     float64
	Lower     float64
	Upper     float64
	Beyond    int64 // readings beyond the limits
	Cp        *float64
	CpLow     *float64
	CpHigh    *float64
	Cpk       *float64
	CpkLow    *float64
	CpkHigh   *float64
	Ppk       *float64
	PpkLow    *float64
	PpkHigh   *float64
	// The most likely shift of level (Pettitt). Its days are those of the readings around it.
	LastBefore time.Time
	FirstAfter time.Time
	BeforeN    int64
	BeforeMean float64
	AfterN     int64
	AfterMean  float64
	P          float64
	Q          *float64 // only series of at least 10 readings take part in the adjustment
}

// IsShift is the one test by which a series is said to have shifted.
func (d Drift) IsShift() bool { return d.Q != nil && *d.Q < 0.05 }

// Drifts lists the series of all stands or boards, the clearest shift first.
func Drifts(ctx context.Context, h *history.History, by string, f Filter) ([]Drift, error) {
	if err := oneOf("drift by", by, DriftGroupings); err != nil {
		return nil, err
	}
	rows, err := history.Select[driftRow](ctx, h, "measures/drift", f.with(history.Params{"by": by}))
	if err != nil {
		return nil, err
	}
	drifts := []Drift{}
	for _, row := range rows {
		if len(row.Deviations) < 2 {
			continue // one reading has no spread and no order
		}
		drift, err := row.drift()
		if err != nil {
			return nil, fmt.Errorf("drift of %s, %s: %w", row.GroupName, row.Quantity, err)
		}
		drifts = append(drifts, drift)
	}
	return drifts, adjustDrifts(drifts)
}

// driftRow is one series as the query gives it.
type driftRow struct {
	GroupName  string
	Quantity   string
	Unit       string
	HalfWidth  *float64
	LeftOut    int64
	Deviations numbers
	Days       numbers // since 1970-01-01
}

// drift makes the figures of one series of two readings or more.
func (r driftRow) drift() (Drift, error) {
	d := Drift{Group: r.GroupName, Quantity: r.Quantity, Unit: r.Unit, HalfWidth: r.HalfWidth, LeftOut: r.LeftOut,
		N: int64(len(r.Deviations)), Mean: meanOf(r.Deviations)}
	shift, err := stats.Pettitt(r.Deviations)
	if err != nil {
		return d, err
	}
	before, after := r.Deviations[:shift.At], r.Deviations[shift.At:]
	d.LastBefore, d.FirstAfter, d.P = day(r.Days[shift.At-1]), day(r.Days[shift.At]), shift.P
	d.BeforeN, d.BeforeMean = int64(len(before)), meanOf(before)
	d.AfterN, d.AfterMean = int64(len(after)), meanOf(after)
	chart, err := stats.Individuals(r.Deviations, baseline(shift))
	if err != nil {
		return d, err
	}
	d.Center, d.Sigma, d.Lower, d.Upper = chart.Center, chart.Sigma, chart.Limits.Low, chart.Limits.High
	for _, deviation := range r.Deviations {
		if !chart.Limits.Holds(deviation) {
			d.Beyond++
		}
		if deviation < -1 || deviation > 1 {
			d.Outside++
		}
	}
	capability, err := stats.CapabilityIndices(r.Deviations, driftTolerance, stats.Level95)
	d.Cp, d.CpLow, d.CpHigh = estimate(capability.Cp)
	d.Cpk, d.CpkLow, d.CpkHigh = estimate(capability.Cpk)
	d.Ppk, d.PpkLow, d.PpkHigh = estimate(capability.Ppk)
	return d, err
}

// baseline says how many first readings set centre and limits: those before a clear shift, which would otherwise widen
// them, if there are enough; else all. What follows the shift is then drawn against what was before it, and is no second
// proof of it.
func baseline(shift stats.Shift) int {
	if shift.P < 0.05 && shift.At >= minGroup {
		return shift.At
	}
	return 0
}

// adjustDrifts turns p into q and puts the clearest shift first.
func adjustDrifts(drifts []Drift) error {
	var p []float64
	for _, d := range drifts {
		if d.N >= minGroup {
			p = append(p, d.P)
		}
	}
	q, err := stats.BenjaminiHochberg(p)
	if err != nil {
		return err
	}
	for i := range drifts {
		if drifts[i].N >= minGroup {
			drifts[i].Q, q = &q[0], q[1:]
		}
	}
	slices.SortStableFunc(drifts, func(a, b Drift) int {
		return cmp.Or(cmp.Compare(a.P, b.P), cmp.Compare(a.Group, b.Group), cmp.Compare(a.Quantity, b.Quantity))
	})
	return nil
}
