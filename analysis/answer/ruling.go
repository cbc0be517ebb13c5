package answer

import (
	"plumbline/analysis/exhibit"
	"plumbline/analysis/quality"
)

// RulingWords says who decided what, when and why; empty where nobody has.
func RulingWords(decision *string, r quality.Ruling) string {
	said := textOf(decision)
	if said != "" && r.DecidedBy != nil {
		said += " by " + *r.DecidedBy
	}
	if said != "" && r.DecidedAt != nil {
		said += " on " + r.DecidedAt.Format("2006-01-02")
	}
	if note := textOf(r.DecisionNote); said != "" && note != "" {
		said += ": " + note
	}
	return said
}

// rulingColumns end a list of findings: a sentence on a page, a cell each in a workbook.
func rulingColumns() []exhibit.Column {
	return []exhibit.Column{{Name: "ruling", Heading: "Decision", Type: exhibit.Prose, Only: exhibit.Pages},
		{Name: "decided_by", Only: exhibit.Sheets}, {Name: "decided_at", Heading: "Decided on", Type: exhibit.Day, Only: exhibit.Sheets},
		{Name: "decision_note", Heading: "Why decided so", Type: exhibit.Prose, Only: exhibit.Sheets}}
}

func rulingCells(decision *string, r quality.Ruling) []any {
	return []any{exhibit.Cell{Value: RulingWords(decision, r), Mark: exhibit.Decided}, r.DecidedBy, r.DecidedAt, r.DecisionNote}
}
