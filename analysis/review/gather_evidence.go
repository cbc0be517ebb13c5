package review

import "plumbline/analysis/quality"

// evidenceKinds are the findings that say whether a record would stand up in an audit, in the order of the page.
var evidenceKinds = []string{
	"missing_calibration", "missing_scan", "missing_road_test", "missing_document", "attempt_gap", "late_pre_scan",
	"stale_post_scan", "incomplete_scan", "out_of_tolerance", "equal_corners", "repeated_readings", "unit_suspect",
	"impossible_order", "overlapping_work", "uncured_glass", "equipment_overdue", "broken_link", "vin_problem",
}

// gapKinds are those that a shop is told of as a share of its jobs: what is simply not there.
var gapKinds = []string{"missing_calibration", "missing_scan", "missing_road_test", "late_pre_scan", "stale_post_scan"}

func (g *gathering) evidence(r *Review) error {
	var err error
	if r.Evidence.Digits, err = quality.Digits(g.ctx, g.h, g.year); err != nil {
		return err
	}
	if r.Evidence.Findings, err = g.ofKinds(evidenceKinds...); err != nil {
		return err
	}
	span := g.span(r.About.From.AddDate(0, -12, 0), r.About.To)
	if r.Evidence.Tallies, err = quality.FindingsByMonth(g.ctx, g.h, span); err != nil {
		return err
	}
	year := g.year
	year.Kinds = gapKinds
	r.Evidence.ByShop, err = quality.GapsByShop(g.ctx, g.h, year)
	return err
}
