package quality

import (
	"context"
	"fmt"
	"math"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// The charts that watch one group's rate, week by week. Weight and width are the usual ones (NIST/SEMATECH e-Handbook
// 6.3.2.4); the cumulative sum watches for odds twice those expected, and is false about once in a thousand tasks.
const (
	ewmaLambda = 0.2
	ewmaWidth  = 3
	fearedOdds = 2
	falseAfter = 1000
)

// An OnsetPoint is one week of a group in which it began a task.
type OnsetPoint struct {
	Week    string    // 2026-W11, ISO 8601
	Starts  time.Time // its Monday
	N       int64     // tasks
	Count   int64     // of these, not first pass
	Rate    float64
	Average float64 // exponentially weighted, of the rates so far
	Low     float64 // its limits
	High    float64
	Beyond  bool    // the average is above its upper limit or below its lower
	Sum     float64 // of the evidence for twice the odds, cumulated
	Signal  bool    // the sum is past its decision
}

// An OnsetView shows how one group's rate went. Expected is the rate of all groups together, Feared the one that the sum
// watches for. Without any hit, or with nothing but hits, there is nothing to expect and no points.
type OnsetView struct {
	By, Group        string
	Expected, Feared float64
	Decision         float64
	Points           []OnsetPoint
	FirstBeyond      *time.Time // Monday of the first week whose average is above its limit
	FirstSignal      *time.Time // Monday of the first week with a signal
}

// OnsetCharts draws the charts of one group of a grouping. A group that is not there is an error.
func OnsetCharts(ctx context.Context, h *history.History, by, group string, f Filter) (OnsetView, error) {
	view := OnsetView{By: by, Group: group}
	if err := oneOf("onset by", by, OnsetGroupings); err != nil {
		return view, err
	}
	rows, err := history.Select[weekOfGroup](ctx, h, "measures/weekly_rates", f.with(history.Params{"by": by}))
	if err != nil {
		return view, err
	}
	var own []weekOfGroup
	var pooled stats.Proportion
	for _, row := range rows {
		pooled = sum(pooled, row.proportion())
		if row.GroupName == group {
			own = append(own, row)
		}
	}
	switch {
	case own == nil:
		return view, fmt.Errorf("no %s %q with a task", by, group)
	case pooled.Count == 0 || pooled.Count == pooled.N:
		return view, nil
	}
	if err := view.draw(own, pooled.Rate()); err != nil {
		return view, fmt.Errorf("charts of %s: %w", group, err)
	}
	return view, nil
}

type weekOfGroup struct {
	GroupName string
	Starts    time.Time
	N, Count  int64
}

func (w weekOfGroup) proportion() stats.Proportion { return stats.Proportion{Count: w.Count, N: w.N} }

// draw charts the weeks against the rate expected.
func (v *OnsetView) draw(weeks []weekOfGroup, expected float64) error {
	rates := make([]stats.Proportion, len(weeks))
	for i, week := range weeks {
		rates[i] = week.proportion()
	}
	odds := fearedOdds * expected / (1 - expected)
	v.Expected, v.Feared, v.Decision = expected, odds/(1+odds), math.Log(falseAfter)
	averages, err := stats.EWMAOfRates(rates,
		stats.EWMAPlan{Target: expected, Lambda: ewmaLambda, Width: ewmaWidth})
	if err != nil {
		return err
	}
	sums, err := stats.RateCUSUM(rates,
		stats.RateCUSUMPlan{Expected: expected, Feared: v.Feared, Decision: v.Decision})
	if err != nil {
		return err
	}
	for i, period := range rates {
		year, week := weeks[i].Starts.ISOWeek()
		v.Points = append(v.Points, OnsetPoint{
			Week: fmt.Sprintf("%d-W%02d", year, week), Starts: weeks[i].Starts, N: period.N, Count: period.Count,
			Rate: period.Rate(), Average: averages[i].Average, Low: averages[i].Limits.Low, High: averages[i].Limits.High,
			Beyond: averages[i].Beyond, Sum: sums[i].Sum, Signal: sums[i].Signal})
	}
	for i := range v.Points {
		point := &v.Points[i]
		if v.FirstBeyond == nil && point.Beyond && point.Average > expected {
			v.FirstBeyond = &point.Starts
		}
		if v.FirstSignal == nil && point.Signal {
			v.FirstSignal = &point.Starts
		}
	}
	return nil
}
