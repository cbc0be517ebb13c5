package review

import (
	"slices"

	"plumbline/analysis/quality"
	"plumbline/queries"
)

func (g *gathering) evidence(r *Review) error {
	var err error
	if r.Evidence.Digits, err = quality.Digits(g.ctx, g.h, g.year); err != nil {
		return err
	}
	span := g.span(r.About.From.AddDate(0, -12, 0), r.About.To)
	if r.Evidence.Tallies, err = quality.FindingsByMonth(g.ctx, g.h, span); err != nil {
		return err
	}
	year := g.year
	year.Kinds = queries.Names(slices.DeleteFunc(queries.OnPage("evidence"), func(k queries.Kind) bool { return !k.IsShare }))
	r.Evidence.ByShop, err = quality.GapsByShop(g.ctx, g.h, year)
	return err
}
