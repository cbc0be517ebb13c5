package quality

import (
	"context"
	"fmt"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// Cohorts lists what the comeback curve can be drawn by.
var Cohorts = []string{"source", "supplier", "model", "half-year"}

// A Curve is the share of a cohort's jobs that have not come back, by days since they were closed.
type Curve struct {
	Cohort string // empty where no cohorts were asked for
	Jobs   []stats.Survival
	stats.Curve
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
		drawn, err := stats.KaplanMeier(curves[i].Jobs, stats.Level95)
		if err != nil {
			return nil, 0, fmt.Errorf("comeback curve %s: %w", curves[i].Cohort, err)
		}
		curves[i].Curve = drawn
	}
	return curves, leftOut, nil
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
