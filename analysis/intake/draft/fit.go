package draft

import (
	"cmp"
	"regexp"
	"slices"

	"plumbline/analysis/layout"
)

// This file orders the columns that a question offers, the one that fits best first.

// columnsLike are the columns whose values could be of a column of the layout, the likeliest first.
func (d *drafting) columnsLike(r *record, column layout.Column) []string {
	fits := map[int]float64{}
	for i := range d.header {
		name := d.guessScore(r, column, i)
		if name > 0 || len(d.values[i]) > 0 && d.couldBe(r, column, i) {
			fits[i] = name + 2*d.valueFit(column, i)
			if d.isOtherwiseTaken(r, column, i) {
				fits[i]--
			}
		}
	}
	var places []int
	for i := range d.header { // columns that fit alike stay in the file's order
		if _, offered := fits[i]; offered {
			places = append(places, i)
		}
	}
	slices.SortStableFunc(places, func(a, b int) int { return cmp.Compare(fits[b], fits[a]) })
	var names []string
	for _, i := range places {
		if name := d.columnName(i); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names[:min(8, len(names))]
}

// guessScore is how sure a file's column is a column of the layout by its name and values; 0 where nothing says so.
func (d *drafting) guessScore(r *record, column layout.Column, at int) float64 {
	best := 0.0
	for _, g := range d.guesses {
		if g.at == at && g.field == column.Name && (g.kind == r.kind.Name || column.Name == "job_no") {
			best = max(best, g.score)
		}
	}
	return best
}

// isOtherwiseTaken tells whether a column is surely another one of the layout.
func (d *drafting) isOtherwiseTaken(r *record, column layout.Column, at int) bool {
	return slices.ContainsFunc(d.taken, func(g guess) bool {
		return g.at == at && g.score >= sure && (g.field != column.Name || g.kind != r.kind.Name && column.Name != "job_no")
	})
}

var looksReference = regexp.MustCompile(`^\pL{0,6}[ .:#/_-]*\d[\d\pL /_-]*$`)

// valueFit says how well values alone speak for a column, from 0 to 1: listed words, or references of which few are alike.
func (d *drafting) valueFit(column layout.Column, at int) float64 {
	c := d.columns[at]
	switch {
	case column.Type == layout.Word:
		return share(d.values[at], func(value string) bool { return wordFor(column, value) != "" })
	case column.Name == "job_no":
		alike := float64(len(c.texts)) / float64(max(1, c.filled))
		if c.isMany {
			alike = 1
		}
		return alike * share(d.values[at], func(value string) bool {
			return looksReference.MatchString(value) && shapeOf(value)&(dayShape|vinShape|clockShape) == 0
		})
	}
	return 0
}
