package answer

import "plumbline/analysis/exhibit"

// DefinitionSheet says what each figure means, and holds the constants that formulas call by name.
func DefinitionSheet() exhibit.Exhibit {
	return exhibit.Exhibit{Name: "definitions", Title: "What each figure means",
		Sheet: exhibit.Sheet{Name: "Definitions", Keep: 1, Prose: 60, About: "What each figure means, how it is worked out, and where the method comes from"},
		Says:  []string{"Rates are worked out in this workbook from their counts: click a cell to see how."},
		Table: &exhibit.Table{Columns: []exhibit.Column{{Name: "figure"}, {Name: "means", Heading: "What it means", Type: exhibit.Prose},
			{Name: "formula", Heading: "How it is worked out", Type: exhibit.Prose}, {Name: "source", Type: exhibit.Prose}},
			Rows: exhibit.Each(Definitions(), func(d Definition) []any { return []any{d.Figure, d.Says, d.Formula, d.Source} })},
		Parts: []exhibit.Exhibit{{Title: "Constants that formulas call by name", Table: &exhibit.Table{
			Columns: []exhibit.Column{{Name: normal, Heading: "Normal deviate of a 95 % interval", Type: exhibit.Level, Named: true, Formula: "NORMSINV(0.975)"}},
			Rows:    exhibit.Given([]any{Deviate95})}}}}
}
