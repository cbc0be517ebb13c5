package review

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"slices"

	"plumbline/analysis/answer"
	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/drawing"
	"plumbline/analysis/exhibit/page"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

//go:embed templates/*.html
var templateFiles embed.FS

// templates are those of what is no exhibit: the four figures, a vehicle's story, definitions.
var templates = template.Must(template.Must(page.Templates.Clone()).ParseFS(templateFiles, "templates/*.html"))

// markupOf makes a section of a template of this package.
func markupOf(name string, shown any) (template.HTML, error) {
	var text bytes.Buffer
	err := templates.ExecuteTemplate(&text, name, shown)
	return template.HTML(text.String()), err // made by a template that escapes
}

// opening is the first page: the month, what stands out, four figures, what needs a decision.
func (r Review) opening() (page.Page, error) {
	p := page.Page{File: leaves[0].file, Title: r.About.Title()}
	if r.About.IsEmpty() {
		p.Lead = []string{"The history holds no calibration, scan or closed job yet, so there is nothing to review.",
			"Import the shop's records first: plumbline import FILE…"}
		return p, nil
	}
	said, err := r.month().Sentences()
	if err != nil {
		return p, err
	}
	month, err := markupOf("month.html", said)
	if err != nil {
		return p, err
	}
	figures, err := r.cards()
	if err != nil {
		return p, err
	}
	standing, err := r.standing()
	if err != nil {
		return p, err
	}
	done := answer.Actions(r.About, r.Actions, nil, r.wasCalled)
	done.Table.All = "the page Actions"
	first := []page.Section{{Markup: month}}
	if r.Earlier != nil {
		first = append(first, page.Of(answer.Since(r.Earlier, r.Known, r.linker()))...)
	}
	p.Sections = append(append(first, page.Of(standing)...), append([]page.Section{figures}, page.Of(r.toDecide(), done)...)...)
	return p, nil
}

func (r Review) month() answer.Month {
	return answer.Month{About: r.About, Figures: r.Figures, Waiting: r.Decisions, Standing: int64(len(r.Standing))}
}

// A shownCard is a figure with its drawing as the template shows it.
type shownCard struct {
	answer.Card
	Chart *drawing.Chart
	Table any
}

func (r Review) cards() (page.Section, error) {
	var shown []shownCard
	for _, card := range answer.Cards(r.About, r.Figures, r.Failures.Rework) {
		made := shownCard{Card: card}
		if card.Year.Drawing != nil {
			chart, err := page.Chart("index", card.Year)
			if err != nil {
				return page.Section{}, err
			}
			made.Chart, made.Table = &chart, page.TableOf(card.Name, *card.Year.Table)
		}
		shown = append(shown, made)
	}
	markup, err := markupOf("cards.html", shown)
	return page.Section{Markup: markup, Charts: slices.ContainsFunc(shown, func(c shownCard) bool { return c.Chart != nil })}, err
}

// earlier is what was left undecided before the month.
func (r Review) earlier() []answer.Consequence {
	return answer.Consequences(slices.DeleteFunc(slices.Clone(r.Undecided), func(f quality.Finding) bool { return f.At == nil || !f.At.Before(r.About.From) }))
}

// toDecide is this month's decisions and those that were left before.
func (r Review) toDecide() exhibit.Exhibit {
	e := answer.ToDecide(r.About, r.Decisions, r.earlier(), r.linker())
	if r.Named > int64(len(r.Vehicles)) {
		e.Notes = append(e.Notes, fmt.Sprintf("The lists of this review name %s; the %s gravest have a page of their own. plumbline trace tells the story of any other.",
			say.Several(r.Named, "vehicle", "vehicles"), say.Count(int64(len(r.Vehicles)))))
	}
	return e
}
