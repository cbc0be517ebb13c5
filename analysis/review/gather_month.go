package review

import (
	"slices"

	"plumbline/analysis/answer"
	"plumbline/analysis/quality"
)

// figures reads the month's figures off the trends, which the other sections show as well.
func (g *gathering) figures(r *Review) error {
	trends := []struct {
		outcome quality.Outcome
		into    *[]quality.TrendPoint
	}{
		{quality.NotFirstPass, &r.Failures.Trend}, {quality.Comeback, &r.Comebacks.Trend},
		{quality.PostScanFault, &r.Scans.Share}, {quality.OpenFaults, &r.Scans.PerJob},
	}
	for _, trend := range trends {
		points, err := quality.Trend(g.ctx, g.h,
			quality.TrendQuery{Outcome: trend.outcome, By: quality.Month, Filter: g.all})
		if err != nil {
			return err
		}
		*trend.into = points
	}
	inMonth := func(p quality.TrendPoint) bool { return p.Period == r.About.Month }
	followed := func(p quality.TrendPoint) bool { return p.N > 0 && p.IsMatured() }
	for _, wanted := range []struct {
		name   string
		points []quality.TrendPoint
		now    func(quality.TrendPoint) bool
		read   func(quality.TrendPoint) (quality.Reading, error)
	}{
		{"first_pass", r.Failures.Trend, inMonth, quality.TrendPoint.Complement},
		{"comeback", r.Comebacks.Trend, followed, quality.TrendPoint.Interval},
		{"open_faults", r.Scans.PerJob, inMonth, quality.TrendPoint.PerUnit},
	} {
		figure, err := readFigure(wanted.name, wanted.points, wanted.now, wanted.read)
		if err != nil {
			return err
		}
		r.Figures = append(r.Figures, figure)
	}
	return nil
}

// readFigure takes the latest point that may stand for now, and the one a month before it.
func readFigure(name string, points []quality.TrendPoint, now func(quality.TrendPoint) bool,
	read func(quality.TrendPoint) (quality.Reading, error)) (answer.Figure, error) {
	figure := answer.Figure{Name: name, Points: points}
	for i := len(points) - 1; i >= 0; i-- {
		if !now(points[i]) {
			continue
		}
		reading, err := read(points[i])
		if err != nil {
			return figure, err
		}
		figure.Now = reading
		if i > 0 {
			before, err := read(points[i-1])
			if err != nil {
				return figure, err
			}
			figure.Before = &before
		}
		break
	}
	return figure, nil
}

func (g *gathering) decisions(r *Review) error {
	var err error
	if r.Findings, err = g.found(); err != nil {
		return err
	}
	r.Decisions = answer.Consequences(r.Findings)
	r.Known, err = quality.Findings(g.ctx, g.h, g.all)
	r.Earlier = g.o.Earlier
	r.Undecided = slices.DeleteFunc(slices.Clone(r.Known), func(f quality.Finding) bool { return f.Decision != nil })
	return err
}
