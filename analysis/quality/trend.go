package quality

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// A Step is the length of a trend's periods.
type Step string

// The steps: calendar months, ISO 8601 weeks, quarters.
const (
	Month   Step = "month"
	Week    Step = "week"
	Quarter Step = "quarter"
)

// Steps lists them.
var Steps = []Step{Month, Week, Quarter}

// A TrendQuery says which trend. The zero values of Reported and the baseline mean: the last period, and all periods
// before it.
type TrendQuery struct {
	Outcome                  Outcome
	By                       Step
	Filter                   Filter
	Reported                 string // a period such as 2026-03
	BaselineFrom, BaselineTo string // the first and last period of a frozen baseline
}

// A TrendPoint is one period. Rates, limits and matured share are from 0 to 1, but open faults are faults a job; nil
// where the period has no units.
type TrendPoint struct {
	Period       string
	N            int64
	Count        int64
	Rate         *float64
	MaturedShare *float64
	Center       *float64
	Lower        *float64
	Upper        *float64
	SigmaZ       *float64
	Signals      []stats.Signal
	Units        int64     `col:"-"` // what fell in the period, matured or not
	InBaseline   bool      `col:"-"`
	Starts       time.Time `col:"-"`
}

// IsMatured reports whether all of a period's units take part in its rate.
func (p TrendPoint) IsMatured() bool { return p.Units == p.N }

// Trend draws the control chart of an outcome. No units give no points. A period named in the query that the trend
// does not hold is an error.
func Trend(ctx context.Context, h *history.History, q TrendQuery) ([]TrendPoint, error) {
	params := q.Filter.with(history.Params{"outcome": string(q.Outcome), "by": string(q.By)})
	rows, err := history.Select[trendRow](ctx, h, "measures/trend", params)
	if err != nil {
		return nil, err
	}
	if err := q.check(rows); err != nil {
		return nil, err
	}
	return q.chart(rows)
}

type trendRow struct {
	Period string
	Starts time.Time
	Units  int64
	N      int64
	Count  int64
}

// periodForms is how each step names its periods. They sort by time.
var periodForms = map[Step]*regexp.Regexp{
	Month:   regexp.MustCompile(`^\d{4}-(0[1-9]|1[0-2])$`),
	Week:    regexp.MustCompile(`^\d{4}-W(0[1-9]|[1-4]\d|5[0-3])$`),
	Quarter: regexp.MustCompile(`^\d{4}-Q[1-4]$`),
}

// periodExamples shows how a period of each step is written.
var periodExamples = map[Step]string{Month: "2026-03", Week: "2026-W09", Quarter: "2026-Q1"}

// A PeriodError is a text that names no period of the step asked for.
type PeriodError struct {
	Text string
	By   Step
}

// Error says how to write it.
func (e *PeriodError) Error() string {
	return fmt.Sprintf("%q is no %s; write it as %s", e.Text, e.By, periodExamples[e.By])
}

// check refuses periods that are none, a reported one that the trend does not hold, and a baseline without any unit:
// each would otherwise be taken for no period at all.
func (q TrendQuery) check(rows []trendRow) error {
	for _, period := range []string{q.Reported, q.BaselineFrom, q.BaselineTo} {
		if period != "" && !periodForms[q.By].MatchString(period) {
			return &PeriodError{period, q.By}
		}
	}
	if len(rows) == 0 {
		return nil
	}
	held := fmt.Sprintf("the trend runs from %s to %s", rows[0].Period, rows[len(rows)-1].Period)
	isReported := func(row trendRow) bool { return row.Period == q.Reported }
	if q.Reported != "" && !slices.ContainsFunc(rows, isReported) {
		return fmt.Errorf("nothing in %s %s: %s", q.By, q.Reported, held)
	}
	isBase := func(row trendRow) bool { return row.N > 0 && q.inBaseline(row.Period, "") }
	if q.isFrozen() && !slices.ContainsFunc(rows, isBase) {
		return fmt.Errorf("nothing to count in the baseline %s..%s: %s", q.BaselineFrom, q.BaselineTo, held)
	}
	return nil
}

func (q TrendQuery) isFrozen() bool { return q.BaselineFrom != "" || q.BaselineTo != "" }

// chart hands the counts to the chart of the outcome's kind: shares, or occurrences a unit.
func (q TrendQuery) chart(rows []trendRow) ([]TrendPoint, error) {
	draw := stats.PChart
	if q.Outcome == OpenFaults {
		draw = stats.UChart
	}
	periods := q.periods(rows)
	chart, err := draw(periods)
	if err != nil {
		return nil, fmt.Errorf("trend of %s: %w", q.Outcome, err)
	}
	points := make([]TrendPoint, len(rows))
	for i, row := range rows {
		drawn := chart.Points[i]
		points[i] = TrendPoint{
			Period: row.Period, Starts: row.Starts, N: row.N, Count: row.Count, Units: row.Units,
			InBaseline: periods[i].InBaseline, Rate: value(drawn.Rate, drawn.Defined),
			MaturedShare: value(share(row.N, row.Units), row.Units > 0),
			Center:       value(chart.Center, chart.Defined), SigmaZ: value(chart.SigmaZ, chart.SigmaZDefined),
			Lower: value(drawn.Lower, drawn.Defined), Upper: value(drawn.Upper, drawn.Defined),
			Signals: drawn.Signals,
		}
	}
	return points, nil
}

// periods marks which periods make the baseline and which can signal: a period that has not fully matured is never
// called as if it had.
func (q TrendQuery) periods(rows []trendRow) []stats.Period {
	reported := q.Reported
	if reported == "" && len(rows) > 0 {
		reported = rows[len(rows)-1].Period
	}
	periods := make([]stats.Period, len(rows))
	for i, row := range rows {
		usable := row.N == row.Units
		periods[i] = stats.Period{Count: row.Count, N: row.N, Usable: usable,
			InBaseline: usable && q.inBaseline(row.Period, reported)}
	}
	return periods
}

// inBaseline relies on the names of periods sorting by time.
func (q TrendQuery) inBaseline(period, reported string) bool {
	if q.isFrozen() {
		return (q.BaselineFrom == "" || period >= q.BaselineFrom) && (q.BaselineTo == "" || period <= q.BaselineTo)
	}
	return period < reported
}

// share is a part of a whole, 0 of an empty one.
func share(part, whole int64) float64 {
	if whole == 0 {
		return 0
	}
	return float64(part) / float64(whole)
}
