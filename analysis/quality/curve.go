package quality

import (
	"context"
	"fmt"
	"slices"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// Cohorts lists what the comeback curve can be drawn by.
var Cohorts = []string{"source", "supplier", "model", "half-year"}

// leastFollowed is how many jobs must still be followed, and not have come back before, on the last day of a curve.
// Source: definitions, comeback curve.
const leastFollowed = 10

// A Curve is the share of a cohort's jobs that have not come back, by days since they were closed. It ends at LastDay:
// beyond, too few were followed for a figure.
type Curve struct {
	Cohort  string // empty where no cohorts were asked for
	Jobs    []stats.Survival
	LastDay float64
	stats.Curve
}

// A CurvePoint is what a curve says of one day. Shares are from 0 to 1.
type CurvePoint struct {
	Group    string // the cohort
	Day      float64
	Followed int64 // jobs followed up to that day that had not come back before
	Returned int64 // of these, on that day
	Share    float64
	Low      *float64 // nil where all have come back, so that the curve has no standard error
	High     *float64
}

// Curves draws the comeback curve, one a cohort in the order of their names, or one for all jobs where by is empty.
// Jobs that belong to no cohort are left out and counted.
func Curves(ctx context.Context, h *history.History, by string, f Filter) (curves []Curve, leftOut int64, err error) {
	rows, err := history.Select[watchedJob](ctx, h, "measures/curve", f.with(history.Params{"by": by}))
	if err != nil {
		return nil, 0, err
	}
	for _, row := range rows {
		if by != "" && row.Cohort == nil {
			leftOut++
			continue
		}
		cohort := ""
		if row.Cohort != nil {
			cohort = *row.Cohort
		}
		if len(curves) == 0 || curves[len(curves)-1].Cohort != cohort {
			curves = append(curves, Curve{Cohort: cohort})
		}
		last := &curves[len(curves)-1]
		last.Jobs = append(last.Jobs, stats.Survival{Days: row.Days, Event: row.CameBack})
	}
	for i := range curves {
		if err := curves[i].draw(); err != nil {
			return nil, 0, fmt.Errorf("comeback curve %s: %w", curves[i].Cohort, err)
		}
	}
	return curves, leftOut, nil
}

// draw estimates the curve up to the last day at which enough jobs were followed.
func (c *Curve) draw() (err error) {
	days := make([]float64, len(c.Jobs))
	for i, job := range c.Jobs {
		days[i] = job.Days
	}
	slices.Sort(days)
	c.LastDay = days[len(days)-1]
	if len(days) >= leastFollowed {
		c.LastDay = days[len(days)-leastFollowed]
	}
	c.Curve, err = stats.KaplanMeier(stats.Restrict(c.Jobs, c.LastDay), stats.Level95)
	return err
}

// By is the share that has come back by a day; false beyond the curve's last day.
func (c Curve) By(day float64) (CurvePoint, bool, error) {
	point := CurvePoint{Group: c.Cohort, Day: day}
	for _, job := range c.Jobs {
		if job.Days >= day {
			point.Followed++
		}
	}
	point.Share = 1 - c.At(day)
	var last stats.CurveStep
	for _, step := range c.Steps {
		if step.Day <= day {
			last = step
		}
	}
	if last.Day == day {
		point.Returned = last.Events
	}
	switch {
	case day > c.LastDay:
		return CurvePoint{}, false, nil
	case last.HasInterval:
		point.Low, point.High = value(1-last.Interval.High, true), value(1-last.Interval.Low, true)
	case last.Events == 0:
		none, err := stats.ClopperPearson(stats.Proportion{N: point.Followed}, stats.Level95)
		point.Low, point.High = &none.Low, &none.High
		return point, true, err
	}
	return point, true, nil
}

// Points are the days on which a job came back, or the last day where none did.
func (c Curve) Points() ([]CurvePoint, error) {
	days := []float64{c.LastDay}
	if len(c.Steps) > 0 {
		days = days[:0]
	}
	for _, step := range c.Steps {
		days = append(days, step.Day)
	}
	points := make([]CurvePoint, len(days))
	for i, day := range days {
		point, _, err := c.By(day)
		if err != nil {
			return nil, err
		}
		points[i] = point
	}
	return points, nil
}

// LogRank asks whether the cohorts share one comeback curve. It is not defined for fewer than two of them, or where none
// came back.
func LogRank(curves []Curve) (stats.LogRank, error) {
	if len(curves) < 2 {
		return stats.LogRank{}, nil
	}
	cohorts := make([][]stats.Survival, len(curves))
	for i, curve := range curves {
		cohorts[i] = curve.Jobs
	}
	return stats.LogRankTest([][][]stats.Survival{cohorts})
}

type watchedJob struct {
	Cohort   *string
	Days     float64
	CameBack bool
}
