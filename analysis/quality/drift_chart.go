package quality

import (
	"context"
	"fmt"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// The cumulative sum of a drift looks for a shift of one sigma: slack half a sigma, decision five.
// Source: Montgomery, Introduction to Statistical Quality Control, chapter on cumulative sums, from memory;
// NIST/SEMATECH e-Handbook 6.3.2.3 has the same slack.
const (
	driftSlack    = 0.5
	driftDecision = 5
)

// A DriftPoint is one reading on the charts of its stand. Deviation, average, limits and sums are in half widths of the
// tolerance.
type DriftPoint struct {
	TakenAt    time.Time
	Shop       string
	JobNo      string
	System     string
	Position   *string
	AttemptNo  int64
	Value      float64 // in Unit
	Unit       string
	HalfWidth  float64
	Deviation  float64
	Signals    []stats.Signal `db:"-"` // of the chart of individuals
	Average    float64        `db:"-"` // exponentially weighted
	AverageLow float64        `db:"-"`
	AverageTop float64        `db:"-" col:"average_high"`
	Beyond     bool           `db:"-"` // the average is beyond its limits
	SumHigh    float64        `db:"-"`
	SumLow     float64        `db:"-"`
	Signal     bool           `db:"-"` // either sum is past the decision
}

// A DriftView is the charts of one quantity on one stand or board.
type DriftView struct {
	By, Group, Quantity string
	Center, Sigma       float64 // before the shift where there is a clear one, else of all readings
	Lower, Upper        float64 // of the chart of individuals
	Decision            float64 // of the sums
	Baseline            int     // how many first readings set centre and limits
	Shift               stats.Shift
	Points              []DriftPoint
}

// DriftCharts draws the charts of one series. Fewer than two readings are an error, and so is a group that is not there.
func DriftCharts(ctx context.Context, h *history.History, by, group, quantity string, f Filter) (DriftView, error) {
	view := DriftView{By: by, Group: group, Quantity: quantity}
	if err := oneOf("drift by", by, DriftGroupings); err != nil {
		return view, err
	}
	var err error
	view.Points, err = history.Select[DriftPoint](ctx, h, "measures/drift_readings_of",
		f.with(history.Params{"by": by, "group": group, "quantity": quantity}))
	if err != nil {
		return view, err
	}
	if len(view.Points) < 2 {
		return view, fmt.Errorf("%d readings of %s with a tolerance for %s %q: a chart needs two or more",
			len(view.Points), quantity, by, group)
	}
	if err := view.draw(); err != nil {
		return view, fmt.Errorf("charts of %s, %s: %w", group, quantity, err)
	}
	return view, nil
}

// draw puts the readings on the three charts.
func (v *DriftView) draw() error {
	values := make([]float64, len(v.Points))
	for i, point := range v.Points {
		values[i] = point.Deviation
	}
	var err error
	if v.Shift, err = stats.Pettitt(values); err != nil {
		return err
	}
	v.Baseline = baseline(v.Shift)
	chart, err := stats.Individuals(values, v.Baseline)
	if err != nil {
		return err
	}
	if v.Baseline == 0 {
		v.Baseline = len(values)
	}
	v.Center, v.Sigma, v.Lower, v.Upper = chart.Center, chart.Sigma, chart.Limits.Low, chart.Limits.High
	for i := range v.Points {
		v.Points[i].Signals = chart.Points[i].Signals
	}
	return v.watch(values)
}

// watch adds the charts that see small lasting shifts. Without spread they have no scale.
func (v *DriftView) watch(values []float64) error {
	if v.Sigma == 0 {
		return nil
	}
	averages, err := stats.EWMA(values,
		stats.EWMAPlan{Target: v.Center, Sigma: v.Sigma, Lambda: ewmaLambda, Width: ewmaWidth})
	if err != nil {
		return err
	}
	v.Decision = driftDecision * v.Sigma
	sums, err := stats.CUSUM(values,
		stats.CUSUMPlan{Target: v.Center, Slack: driftSlack * v.Sigma, Decision: v.Decision})
	if err != nil {
		return err
	}
	for i := range v.Points {
		point := &v.Points[i]
		point.Average, point.Beyond = averages[i].Average, averages[i].Beyond
		point.AverageLow, point.AverageTop = averages[i].Limits.Low, averages[i].Limits.High
		point.SumHigh, point.SumLow = sums[i].High, sums[i].Low
		point.Signal = sums[i].SignalHigh || sums[i].SignalLow
	}
	return nil
}
