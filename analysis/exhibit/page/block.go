package page

import (
	"html/template"
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/drawing"
)

// A block is an exhibit as the templates show it.
type block struct {
	ID      string
	Heading string
	Says    []string
	Points  []string
	Chart   *drawing.Chart
	Table   *table
	Notes   []string
	More    []block
	Fold    bool
	Apart   bool
	Markup  template.HTML
}

func (b block) hasChart() bool {
	for _, more := range b.More {
		if more.hasChart() {
			return true
		}
	}
	return b.Chart != nil
}

// blockOf makes an exhibit, and the parts of it, ready for the templates of the page of a name.
func blockOf(page string, e exhibit.Exhibit) (block, error) {
	b := block{ID: e.Name, Heading: e.Title, Says: e.Says, Points: e.Points, Notes: e.Notes, Fold: e.Folds, Apart: e.Apart}
	if e.Table != nil && len(e.Table.In(exhibit.Pages)) > 0 && e.Table.Rows.Len > 0 {
		made := tableOf(e.Title, *e.Table)
		b.Table = &made
	}
	if e.Drawing != nil {
		chart, err := Chart(page, e)
		if err != nil {
			return b, err
		}
		b.Chart = &chart
	}
	for _, part := range e.Parts {
		made, err := blockOf(page, part)
		if err != nil {
			return b, err
		}
		b.More = append(b.More, made)
	}
	return b, nil
}

// Chart draws the drawing of an exhibit. Its name is made of the page's and its own alone, so that it is the same every
// time.
func Chart(page string, e exhibit.Exhibit) (drawing.Chart, error) {
	name := e.Drawing.Name
	if name == "" {
		name = e.Name
	}
	return drawing.Draw("chart-"+page+"-"+strings.ToLower(strings.NewReplacer("_", "-", " ", "-").Replace(name)), *e.Drawing, e.Table)
}
