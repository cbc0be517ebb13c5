package review

import (
	"plumbline/analysis/answer"
	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

func (g *gathering) comebacks(r *Review) error {
	curves, _, err := quality.Curves(g.ctx, g.h, "", g.all)
	if err != nil {
		return err
	}
	if len(curves) > 0 {
		r.Comebacks.Curve = &curves[0]
	}
	if r.Comebacks.BySource, _, err = quality.Curves(g.ctx, g.h, "source", g.all); err != nil {
		return err
	}
	if r.Comebacks.Month, err = quality.Returns(g.ctx, g.h, g.month); err != nil {
		return err
	}
	r.Comebacks.Year, err = quality.Returns(g.ctx, g.h, g.year)
	return err
}

func (g *gathering) failures(r *Review) error {
	var err error
	if r.Failures.Systems, err = quality.FirstPassBySystem(g.ctx, g.h, g.month); err != nil {
		return err
	}
	if r.Failures.SystemsBefore, err = quality.FirstPassBySystem(g.ctx, g.h, g.prior); err != nil {
		return err
	}
	r.Failures.Rework, err = quality.Rework(g.ctx, g.h, g.span(r.About.From.AddDate(0, -12, 0), r.About.To))
	if err != nil {
		return err
	}
	if r.Failures.Codes, err = quality.Failures(g.ctx, g.h, "code", g.year); err != nil {
		return err
	}
	if r.Failures.Changes, err = quality.Changes(g.ctx, g.h, "", g.year); err != nil {
		return err
	}
	if r.Failures.Waits, err = quality.FailureWaits(g.ctx, g.h, g.year); err != nil {
		return err
	}
	r.Failures.Hours, r.Failures.Weekdays, err = quality.FailureClock(g.ctx, g.h, g.all)
	return err
}

func (g *gathering) scans(r *Review) error {
	months, err := quality.ScanFaultsByMonth(g.ctx, g.h, g.all)
	if err != nil {
		return err
	}
	r.Scans.Months = months[max(0, len(months)-13):]
	if r.Scans.Modules, err = quality.ScanFaultsByModule(g.ctx, g.h, g.month); err != nil {
		return err
	}
	r.Scans.Year, err = quality.ScanFaultsByModule(g.ctx, g.h, g.year)
	return err
}

func (g *gathering) glass(r *Review) error {
	r.Glass.Strata = quality.StrataFactors[:2]
	rows, err := quality.Glass(g.ctx, g.h, r.Glass.Strata, g.all)
	if err != nil {
		return err
	}
	for _, row := range rows {
		answered := answer.GlassAnswer{GlassRow: row}
		if row.ReferenceRate != nil && row.N > 0 {
			detectable, err := stats.DetectableRates(*row.ReferenceRate, row.N, row.ReferenceN, stats.UsualComparison())
			if err != nil {
				return err
			}
			answered.Detectable = &detectable
		}
		r.Glass.Answers = append(r.Glass.Answers, answered)
	}
	for _, by := range []string{"supplier", "brand"} {
		for _, outcome := range quality.Outcomes {
			comparison, err := quality.Compare(g.ctx, g.h, by, outcome, g.all)
			if err != nil {
				return err
			}
			r.Glass.Groups = append(r.Glass.Groups, comparison)
		}
	}
	return nil
}

// peopleGroupings are those of the page, in its order.
var peopleGroupings = []string{"technician", "equipment", "target", "bay", "software_version"}

func (g *gathering) people(r *Review) error {
	for _, by := range peopleGroupings {
		comparison, err := quality.Compare(g.ctx, g.h, by, quality.NotFirstPass, g.all)
		if err != nil {
			return err
		}
		r.People.Groups = append(r.People.Groups, comparison)
	}
	if err := g.onsets(&r.People); err != nil {
		return err
	}
	return g.drifts(&r.People)
}

func (g *gathering) data(r *Review) error {
	var err error
	if r.Data.Marks, err = quality.Marks(g.ctx, g.h, g.all); err != nil {
		return err
	}
	if r.Data.Balances, err = quality.Balances(g.ctx, g.h); err != nil {
		return err
	}
	if r.Data.Rejects, err = quality.RejectReasons(g.ctx, g.h); err != nil {
		return err
	}
	if r.Data.Names, err = quality.Spellings(g.ctx, g.h); err != nil {
		return err
	}
	if r.Data.Clocks, err = quality.ClocksApart(g.ctx, g.h, g.all); err != nil {
		return err
	}
	r.Data.LeftOut, err = quality.Coverages(g.ctx, g.h, g.all)
	return err
}
