package answer

import (
	"fmt"
	"slices"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/queries"
)

// A Consequence is a group of findings that ask for the same decision.
type Consequence struct {
	Heading  string
	Why      string
	Page     string            // where all of its kind are
	Findings []quality.Finding // undecided ones
	Decided  int64             // confirmed or dismissed already
}

// A weighty is what a kind's header says of the findings that a person must look at.
type weighty struct {
	kind queries.Kind
	queries.Decision
}

// weightiest are in the order of what can happen to people on the road, then to the shop.
// Source: common practice, no source; the maker's procedure decides.
func weightiest() []weighty {
	var all []weighty
	for _, kind := range queries.Catalogue() {
		for _, decision := range kind.Decisions {
			all = append(all, weighty{kind, decision})
		}
	}
	slices.SortFunc(all, func(one, other weighty) int { return one.Rank - other.Rank })
	return all
}

func (w weighty) fits(f quality.Finding) bool {
	return f.Kind == w.kind.Name && w.When.Holds(textOf(f.Class), textOf(f.System))
}

// Consequences sorts findings into the consequences that occur. A finding stands under the first that fits it.
func Consequences(findings []quality.Finding) []Consequence {
	var needed []Consequence
	for _, w := range weightiest() {
		group := Consequence{Heading: w.Heading, Why: w.Why, Page: w.kind.Places[0].Page + ".html"}
		for _, finding := range findings {
			switch {
			case !w.fits(finding):
			case finding.Decision != nil:
				group.Decided++
			default:
				group.Findings = append(group.Findings, finding)
			}
		}
		if len(group.Findings) > 0 {
			needed = append(needed, group)
		}
	}
	return needed
}

// An asked is a finding with the decision that it asks for.
type asked struct {
	group Consequence
	quality.Finding
}

func askedOf(groups []Consequence) []asked {
	var all []asked
	for _, group := range groups {
		for _, finding := range group.Findings {
			all = append(all, asked{group, finding})
		}
	}
	return all
}

// ToDecide is what waits for a person this month, the gravest first, and below it what was left undecided before.
func ToDecide(a About, now, before []Consequence, link Linker) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "decisions", Title: "What needs a decision"}
	this, earlier := askedOf(now), askedOf(before)
	if len(this)+len(earlier) == 0 {
		e.Says = []string{"No finding waits for a decision."}
		return e
	}
	e.Says = []string{fmt.Sprintf("%s of %s %s for a decision, and %s from before. In the order of what can happen to people on the road, then to the shop. "+
		"Look at the vehicle first; then confirm the finding, or dismiss it, with your name and the reason: the decision is kept for good.",
		say.Sentence(say.NoneOr(int64(len(this)), "finding", "findings")), a.monthWords(), say.One(int64(max(1, len(this))), "waits", "wait"),
		say.OrNone(int64(len(earlier)))),
		"plumbline decide FINDING confirm --by NAME --note WHY; to dismiss, write dismiss in the place of confirm. Or fill in the sheet Decisions of review.xlsx and give it " +
			"back: plumbline decide --from review.xlsx. A dismissed comeback no longer counts; dismissing any other finding marks it and changes no figure."}
	e.Parts = []exhibit.Exhibit{{Title: "By person", Table: personTable(a, byPerson(slices.Concat(this, earlier)))}}
	if len(this) > 0 {
		e.Table = decisionTable(a, this, link)
		e.Table.Caption = "This month's"
		e.Table.All = a.monthCommand("plumbline findings --undecided")
	}
	if len(earlier) > 0 {
		t := decisionTable(a, earlier, link)
		t.Caption, t.All = "Left undecided before", a.pointOfView("plumbline findings --undecided")
		e.Parts = append(e.Parts, exhibit.Exhibit{Name: "undecided-before", Folds: true, Title: fmt.Sprintf("Left undecided before %s: %s", a.monthWords(), say.Several(int64(len(earlier)), "finding", "findings")), Table: t})
	}
	return e
}

func decisionTable(a About, listed []asked, link Linker) *exhibit.Table {
	return &exhibit.Table{Columns: []exhibit.Column{{Name: "needed", Heading: "Decision needed"}, {Name: "job", Heading: "Vehicle and job"},
		{Name: "about", Heading: "System or subject"}, {Name: "at", Heading: "When", Type: exhibit.Day}, {Name: "age", Heading: "Days ago", Type: exhibit.Count},
		{Name: "technician"}, {Name: "detail", Type: exhibit.Prose}, {Name: "finding", Type: exhibit.Command}},
		Rows: exhibit.Each(listed, func(f asked) []any {
			return []any{exhibit.Cell{Value: f.group.Heading, Link: f.group.Page}, exhibit.Cell{Value: JobName(f.Shop, f.JobNo, f.VIN), Link: link(f.Shop, f.JobNo, f.VIN)},
				SubjectOf(f.Finding), f.At, a.age(f.Finding), f.Technician, f.Detail, f.Finding.Finding}
		})}
}

// age is how many whole days a finding is old as of the review.
func (a About) age(f quality.Finding) any {
	if f.At == nil || a.Scope.AsOf == nil {
		return nil
	}
	return int64(a.Scope.AsOf.Sub(*f.At).Hours() / 24)
}

// DecisionSheet is every undecided finding, in the order of each person's list, with cells for the decision, to be signed on paper or given back to
// plumbline decide --from.
func DecisionSheet(a About, undecided []quality.Finding, link Linker) exhibit.Exhibit {
	open := func(name string, t exhibit.Type, choices ...string) exhibit.Column {
		return exhibit.Column{Name: name, Heading: name, Type: t, Choices: choices}
	}
	why := func(f quality.Finding) any {
		for _, w := range weightiest() {
			if w.fits(f) {
				return w.Why
			}
		}
		return queries.KindNamed(f.Kind).Means
	}
	return exhibit.Exhibit{Name: "decision-sheet", Title: "Decisions: every finding that waits for one",
		Sheet: exhibit.Sheet{Name: "Decisions", Keep: 1, About: "Every undecided finding, with cells for the decision"},
		Says: []string{"Choose confirm or dismiss, write who decides and why, and give the workbook back: plumbline decide --from review.xlsx. An empty decision is passed " +
			"over. The vehicle maker's current procedure and a qualified technician decide."},
		Table: &exhibit.Table{Columns: []exhibit.Column{{Name: "finding", Heading: "finding"}, open("decision", exhibit.Text, "confirm", "dismiss"), open("by", exhibit.Text),
			open("note", exhibit.Prose), {Name: "severity"}, {Name: "what"}, {Name: "shop"}, {Name: "job_no", Heading: "Job"}, {Name: "vin", Heading: "VIN"},
			{Name: "about", Heading: "System or subject"}, {Name: "at", Heading: "When", Type: exhibit.Moment}, {Name: "age", Heading: "Days ago", Type: exhibit.Count},
			{Name: "technician"}, {Name: "detail", Type: exhibit.Prose}, {Name: "why", Heading: "Why it matters", Type: exhibit.Prose}},
			Rows: exhibit.Each(slices.SortedStableFunc(slices.Values(undecided), graveThenOld), func(f quality.Finding) []any {
				return []any{f.Finding, nil, nil, nil, severityCell(f), FindingName(f), exhibit.Cell{Value: f.Shop, Link: link(f.Shop, f.JobNo, f.VIN)}, f.JobNo, f.VIN, SubjectOf(f),
					f.At, a.age(f), f.Technician, f.Detail, why(f)}
			})}}
}
