package review

import (
	"slices"

	"plumbline/analysis/quality"
	"plumbline/queries"
)

// A consequence is what a kind's header says of the findings that a person must look at.
type consequence struct {
	kind queries.Kind
	queries.Decision
}

// consequences are in the order of what can happen to people on the road, then to the shop.
// Source: common practice, no source; the maker's procedure decides.
func consequences() []consequence {
	var all []consequence
	for _, kind := range queries.Catalogue() {
		for _, decision := range kind.Decisions {
			all = append(all, consequence{kind, decision})
		}
	}
	slices.SortFunc(all, func(one, other consequence) int { return one.Rank - other.Rank })
	return all
}

// decisionsNeeded sorts the month's findings into the consequences that occur. A finding stands under the first that
// fits it.
func decisionsNeeded(findings []quality.Finding) []Consequence {
	var needed []Consequence
	for _, c := range consequences() {
		group := Consequence{Heading: c.Heading, Why: c.Why, Page: c.kind.Places[0].Page + ".html"}
		for _, finding := range findings {
			switch {
			case !c.fits(finding):
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

func (c consequence) fits(f quality.Finding) bool {
	return f.Kind == c.kind.Name && c.When.Holds(textOf(f.Class), textOf(f.System))
}
