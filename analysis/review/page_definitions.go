package review

import "html/template"

// A shownDefinition is a definition as its page shows it.
type shownDefinition struct {
	Definition
	Drawn template.HTML
}

func (r Review) definitionPage() (page, error) {
	var shown []shownDefinition
	for _, d := range Definitions() {
		shown = append(shown, shownDefinition{d, d.drawn.HTML()})
	}
	return page{Template: "definitions", Body: shown,
		Lead: []string{"What each figure means, how it is worked out, and where the method comes from."}}, nil
}
