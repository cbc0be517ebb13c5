package review

import "plumbline/analysis/quality"

// furtherGroupings are those that no page shows.
var furtherGroupings = []string{"model", "source", "method", "shop"}

// groups compares what only the workbook shows.
func (g *gathering) groups(r *Review) error {
	for _, by := range furtherGroupings {
		comparison, err := quality.Compare(g.ctx, g.h, by, quality.NotFirstPass, g.all)
		if err != nil {
			return err
		}
		r.Groups = append(r.Groups, comparison)
	}
	return nil
}
