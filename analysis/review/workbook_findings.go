package review

import (
	"plumbline/analysis/quality"
)

// findingLeaf lists all findings of the month, to be filtered.
func (r Review) findingLeaf() *leaf {
	month := monthName(r.About.Month)
	g := &grid{rows: len(r.Findings), sorts: true, columns: findingColumns, row: func(i int) []any { return findingRow(r.Findings[i]) }}
	l := &leaf{name: "Findings", title: "All findings of " + month, keep: 4, grids: []*grid{g}, about: "Every finding of the month, the gravest first",
		says: []string{"The gravest first, then the latest. A decision is kept for good with: plumbline decide FINDING confirm (or dismiss) --by NAME --note WHY"}}
	return l.lay()
}

var findingColumns = []gridColumn{{"Finding", asText}, {"Severity", asText}, {"Shop", asText}, {"Job", asText}, {"VIN", asText}, {"What", asText},
	{"System", asText}, {"Position", asText}, {"Attempt", asCount}, {"Subject", asText}, {"At", asMoment}, {"Technician", asText}, {"Detail", asLongText},
	{"Decision", asText}, {"Earlier shop", asText}, {"Earlier job", asText}, {"Earlier system", asText}, {"Earlier position", asText},
	{"Earlier attempt", asCount}, {"Days", asDays}, {"Kind", asText}, {"Class", asText}}

func findingRow(f quality.Finding) []any {
	severity := any(f.Severity)
	if f.Severity == "high" {
		severity = toned{"high", signalTone}
	}
	return []any{f.Finding, severity, f.Shop, f.JobNo, f.VIN, findingName(f), f.System, f.Position, f.AttemptNo, f.Subject, f.At, f.Technician, f.Detail,
		f.Decision, f.PriorShop, f.PriorJobNo, f.PriorSystem, f.PriorPosition, f.PriorAttemptNo, f.Days, f.Kind, f.Class}
}

// decisionLeaf lists what waits for a person, ordered by consequence.
func (r Review) decisionLeaf() *leaf {
	type placed struct {
		group   *Consequence
		finding quality.Finding
	}
	var rows []placed
	for i := range r.Decisions {
		for _, finding := range r.Decisions[i].Findings {
			rows = append(rows, placed{&r.Decisions[i], finding})
		}
	}
	g := &grid{rows: len(rows), sorts: true, columns: []gridColumn{{"Decision needed", asText}, {"Shop", asText}, {"Job", asText}, {"VIN", asText},
		{"System or subject", asText}, {"At", asMoment}, {"Technician", asText}, {"Detail", asLongText}, {"Why it matters", asLongText}, {"Finding", asText}}}
	g.row = func(i int) []any {
		group, f := rows[i].group, rows[i].finding
		return []any{group.Heading, f.Shop, f.JobNo, f.VIN, subjectOf(f), f.At, f.Technician, f.Detail, group.Why, f.Finding}
	}
	l := &leaf{name: "To decide", title: "What needs a decision, by consequence", keep: 3, grids: []*grid{g},
		about: "Findings of the month that wait for a person, the gravest first",
		says: []string{"The vehicle maker's current procedure and a qualified technician decide. Keep a decision for good with: plumbline decide FINDING confirm (or " +
			"dismiss) --by NAME --note WHY"}}
	return l.lay()
}
