package review

import "plumbline/analysis/quality"

// mostViews is how many series of readings that shifted are drawn.
const mostViews = 4

// mostOnsets is how many groups a change is looked for in: each takes thousands of random orders, which a large group
// of shops would wait minutes for. The command does it for any number, and shop by shop.
const mostOnsets = 150

// groupsBy counts the groups of a grouping; 0 where the page does not compare it.
func (p *People) groupsBy(by string) int {
	for _, comparison := range p.Groups {
		if comparison.By == by {
			return len(comparison.Groups)
		}
	}
	return 0
}

// onsets asks when a group's rate changed, and draws the clearest of each grouping. A technician is not drawn: the
// table has the numbers, and a drawing of a person's bad weeks invites the wrong question.
func (g *gathering) onsets(p *People) error {
	var looked []string
	for _, by := range quality.OnsetGroupings {
		if p.groupsBy(by) > mostOnsets {
			p.TooMany = append(p.TooMany, by)
			continue
		}
		looked = append(looked, by)
	}
	var err error
	if p.Onsets, err = quality.Onsets(g.ctx, g.h, g.all, looked...); err != nil {
		return err
	}
	for _, table := range p.Onsets {
		if table.By == "technician" || len(table.Onsets) == 0 || !table.Onsets[0].IsChange() {
			continue
		}
		view, err := quality.OnsetCharts(g.ctx, g.h, table.By, table.Onsets[0].Group, g.all)
		if err != nil {
			return err
		}
		p.Rates = append(p.Rates, view)
	}
	return nil
}

// drifts asks which stands' measured values moved, and draws the clearest.
func (g *gathering) drifts(p *People) error {
	if p.groupsBy("equipment") > mostOnsets {
		return nil
	}
	var err error
	if p.Drifts, err = quality.Drifts(g.ctx, g.h, "equipment", g.all); err != nil {
		return err
	}
	for _, drift := range p.Drifts {
		if !drift.IsShift() || len(p.Series) == mostViews {
			continue
		}
		view, err := quality.DriftCharts(g.ctx, g.h, "equipment", drift.Group, drift.Quantity, g.all)
		if err != nil {
			return err
		}
		p.Series = append(p.Series, view)
	}
	return nil
}
