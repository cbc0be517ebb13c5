package answer

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// PeoplePage is where each person's list is.
const PeoplePage = "by-person.html"

// A personList is what waits for a decision and concerns one person's work, the gravest first, then the oldest.
type personList struct {
	anchor, name string
	high         int64
	oldest       *asked
	asked        []asked
}

// byPerson sorts what waits by whose work it concerns. People stand in the order of their codes, and last what names nobody.
func byPerson(all []asked) []personList {
	lists := map[string]*personList{}
	for _, f := range all {
		code := textOf(f.Technician)
		if lists[code] == nil {
			lists[code] = &personList{name: cmp.Or(code, "No person on record")}
		}
		lists[code].asked = append(lists[code].asked, f)
	}
	var codes []string
	for code := range lists {
		codes = append(codes, code)
	}
	slices.SortFunc(codes, func(one, other string) int {
		if one == "" || other == "" {
			return len(other) - len(one)
		}
		return cmp.Compare(one, other)
	})
	people := make([]personList, len(codes))
	for i, code := range codes {
		people[i] = lists[code].sorted(fmt.Sprintf("person-%d", i+1))
	}
	return people
}

func (p personList) sorted(anchor string) personList {
	p.anchor = anchor
	slices.SortStableFunc(p.asked, func(one, other asked) int { return graveThenOld(one.Finding, other.Finding) })
	for i, f := range p.asked {
		if f.Severity == quality.Severities[0] {
			p.high++
		}
		if f.At != nil && (p.oldest == nil || f.At.Before(*p.oldest.At)) {
			p.oldest = &p.asked[i]
		}
	}
	return p
}

// graveThenOld orders findings by severity, the gravest first, and the oldest of one severity first.
func graveThenOld(one, other quality.Finding) int {
	gravity := func(f quality.Finding) int { return slices.Index(quality.Severities, f.Severity) }
	moment := func(f quality.Finding) (at time.Time) {
		if f.At != nil {
			at = *f.At
		}
		return at
	}
	return cmp.Or(gravity(one)-gravity(other), moment(one).Compare(moment(other)))
}

// personTable leads to each person's list.
func personTable(a About, people []personList) *exhibit.Table {
	return &exhibit.Table{Caption: "What waits, by whose work it concerns", Columns: []exhibit.Column{{Name: "person"}, {Name: "waiting", Type: exhibit.Count},
		{Name: "high", Heading: "of these, high severity", Type: exhibit.Count}, {Name: "oldest", Heading: "The oldest, days ago", Type: exhibit.Count}},
		Rows: exhibit.Each(people, func(p personList) []any {
			var oldest any
			if p.oldest != nil {
				oldest = a.age(p.oldest.Finding)
			}
			return []any{exhibit.Cell{Value: p.name, Link: PeoplePage + "#" + p.anchor}, int64(len(p.asked)), p.high, oldest}
		})}
}

// ByPerson is each person's list, to be printed and taken to a meeting: everyone's begins on a sheet of its own.
func ByPerson(a About, waiting []Consequence, link Linker) []exhibit.Exhibit {
	all := askedOf(waiting)
	if len(all) == 0 {
		return []exhibit.Exhibit{{Name: "people", Title: "By person", Says: []string{"No finding waits for a decision."}}}
	}
	people := byPerson(all)
	exhibits := []exhibit.Exhibit{{Name: "people", Title: "By person", Table: personTable(a, people), Says: []string{say.Sentence(say.Several(int64(len(all)), "finding waits",
		"findings wait")) + " for a decision, of " + a.monthWords() + " and before. A finding under a person's code concerns that person's work; it is no judgment of the person."}}}
	for _, p := range people {
		exhibits = append(exhibits, exhibit.Exhibit{Name: p.anchor, Title: p.name, Apart: true, Table: p.table(a, link),
			Says: []string{say.Sentence(say.Several(int64(len(p.asked)), "finding", "findings")) + ", the gravest first, then the oldest. Look at the vehicle first; tick what it is and write " +
				"who decides and why."}})
	}
	return exhibits
}

func (p personList) table(a About, link Linker) *exhibit.Table {
	return &exhibit.Table{Caption: "Waits for a decision: " + p.name, All: a.pointOfView("plumbline findings --undecided"), Columns: []exhibit.Column{
		{Name: "needed", Heading: "Decision needed"}, {Name: "severity"}, {Name: "job", Heading: "Vehicle and job"}, {Name: "about", Heading: "System or subject"},
		{Name: "at", Heading: "When", Type: exhibit.Day}, {Name: "age", Heading: "Days ago", Type: exhibit.Count}, {Name: "detail", Type: exhibit.Prose},
		{Name: "finding", Type: exhibit.Command}, {Name: "tick", Heading: "Decision"}, {Name: "why", Heading: "Who, and why"}},
		Rows: exhibit.Each(p.asked, func(f asked) []any {
			return []any{f.group.Heading, severityCell(f.Finding), exhibit.Cell{Value: JobName(f.Shop, f.JobNo, f.VIN), Link: link(f.Shop, f.JobNo, f.VIN)}, SubjectOf(f.Finding),
				f.At, a.age(f.Finding), f.Detail, f.Finding.Finding, "☐ confirm ☐ dismiss", "__________"}
		})}
}
