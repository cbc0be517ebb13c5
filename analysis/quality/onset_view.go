package quality

import (
	"context"
	"fmt"
	"math"
	"slices"
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
	Change           *Onset     // the change point, by day; without a Q, for the group was looked at alone
}

// OnsetCharts draws the charts of one group of a grouping. A group that is not there is an error.
func OnsetCharts(ctx context.Context, h *history.History, by, group string, f Filter) (OnsetView, error) {
	view := OnsetView{By: by, Group: group}
	weeks, err := readSequences(ctx, h, by, "week", f)
	if err != nil {
		return view, err
	}
	at := slices.IndexFunc(weeks, func(s sequence) bool { return s.group == group })
	if at < 0 {
		return view, fmt.Errorf("no %s %q with a task", by, group)
	}
	var pooled stats.Proportion
	for _, s := range weeks {
		all := s.total()
		pooled.Count += all.Count
		pooled.N += all.N
	}
	if pooled.Count == 0 || pooled.Count == pooled.N {
		return view, nil
	}
	if err := view.draw(weeks[at], pooled.Rate()); err != nil {
		return view, fmt.Errorf("charts of %s: %w", group, err)
	}
	return view, view.find(ctx, h, f)
}

// draw charts the weeks against the rate expected.
func (v *OnsetView) draw(weeks sequence, expected float64) error {
	odds := fearedOdds * expected / (1 - expected)
	v.Expected, v.Feared, v.Decision = expected, odds/(1+odds), math.Log(falseAfter)
	averages, err := stats.EWMAOfRates(weeks.periods,
		stats.EWMAPlan{Target: expected, Lambda: ewmaLambda, Width: ewmaWidth})
	if err != nil {
		return err
	}
	sums, err := stats.RateCUSUM(weeks.periods,
		stats.RateCUSUMPlan{Expected: expected, Feared: v.Feared, Decision: v.Decision})
	if err != nil {
		return err
	}
	for i, period := range weeks.periods {
		year, week := weeks.starts[i].ISOWeek()
		v.Points = append(v.Points, OnsetPoint{
			Week: fmt.Sprintf("%d-W%02d", year, week), Starts: weeks.starts[i], N: period.N, Count: period.Count,
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

// find adds the group's change point.
func (v *OnsetView) find(ctx context.Context, h *history.History, f Filter) error {
	days, err := readSequences(ctx, h, v.By, "day", f)
	if err != nil {
		return err
	}
	for _, s := range days {
		if s.group != v.Group || s.total().N < minGroup {
			continue
		}
		if v.Change, err = s.onset(leastDraws); err != nil {
			return err
		}
	}
	return nil
}
