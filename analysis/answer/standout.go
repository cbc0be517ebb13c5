package answer

import (
	"fmt"
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// mostStanding is how many things the first page names; the list behind it has them all.
const mostStanding = 5

// Standing is what stands out over all pages, the gravest first. Where leads from a thing to its page; least says how large
// a thing would have had to be to be seen, where nothing stands out.
func Standing(a About, things []quality.Standout, where func(quality.Standout) string, least string) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "standing", Title: "What stands out"}
	if len(things) == 0 {
		e.Says = nonEmpty("Nothing stands out from chance in "+a.twelve()+". That is not to say that nothing is there.", least)
		return e
	}
	shown := things[:min(len(things), mostStanding)]
	e.Says = []string{"In the order of what can happen to people on the road, then of how many more than expected, over the twelve months:"}
	for _, thing := range shown {
		e.Points = append(e.Points, StandingSays(thing))
	}
	if len(things) > len(shown) {
		e.Says = append(e.Says, fmt.Sprintf("%s in the workbook and by plumbline standout.", say.Sentence(say.Several(int64(len(things)-len(shown)), "more is", "more are"))))
	}
	e.Table = StandingTable(shown, where)
	e.Table.All = a.pointOfView("plumbline standout --month " + a.Month)
	e.Notes = []string{"Error is shared among all that is looked at for this list, both sides: over many months in which nothing truly differs, one in twenty lists anything. " +
		"It says where to look, and nobody's fault. " + commandNote(e.Table.All)}
	return e
}

// StandingSheet is all that stands out, for a workbook.
func StandingSheet(a About, things []quality.Standout, where func(quality.Standout) string, least string) exhibit.Exhibit {
	e := Standing(a, things, where, least)
	e.Points, e.Table = nil, StandingTable(things, where)
	e.Says = append(e.Says[:1:1], e.Notes...)
	e.Sheet = exhibit.Sheet{Name: "What stands out", Keep: 3, About: "What stands out over all pages, the gravest first"}
	return e
}

// thingName names a thing that stands out.
func thingName(s quality.Standout) string {
	switch s.Kind {
	case quality.StandoutSignal:
		return say.Sentence(outcomeNames[quality.Outcome(s.Outcome)])
	case quality.StandoutGlass:
		return sourceName(s.Group) + " glass"
	case quality.StandoutGap:
		return "Shop " + s.Group
	}
	return groupingHeading(s.Grouping) + " " + s.Group
}

// thingOutcome names what is counted.
func thingOutcome(s quality.Standout) string {
	if name := outcomeNames[quality.Outcome(s.Outcome)]; name != "" {
		return name
	}
	return strings.ToLower(kindTitle(s.Outcome)[:1]) + kindTitle(s.Outcome)[1:]
}

// StandingSays is one thing in words: counts that everybody can say aloud, since when, and whether something was done.
func StandingSays(s quality.Standout) string {
	said := fmt.Sprintf("%s: %s, %s of %s where %s would be expected, %s more", thingName(s), thingOutcome(s), say.Count(s.Count), say.Count(s.N), say.Number(s.Expected, 1),
		say.Number(s.Excess, 1))
	if s.Since != "" {
		said += ", since " + say.Month(s.Since)
	}
	said += "."
	if s.Detail != "" {
		said += " " + say.Sentence(s.Detail) + "."
	}
	if s.Action != "" {
		return said + " Done since: " + actionWords.Replace(s.Action) + "."
	}
	if s.Since == "" {
		return said + " No action on record."
	}
	return said + " No action on record since."
}

// actionWords puts the verdicts of actions into words.
var actionWords = strings.NewReplacer("too_early", "too early to say", "not_shown", "a change is not shown", "with_the_others", "no more than the others",
	": alone", ": changed, with no others to be held against")

// StandingTable is the list with the columns of the command.
func StandingTable(things []quality.Standout, where func(quality.Standout) string) *exhibit.Table {
	files := func(c exhibit.Column) exhibit.Column { c.Only = exhibit.Files | exhibit.Sheets; return c }
	return &exhibit.Table{Caption: "What stands out", Columns: joined(exhibit.Column{Name: "rank", Type: exhibit.Count}, beside(exhibit.Column{Name: "thing", Heading: "What"}),
		files(exhibit.Column{Name: "kind"}), files(exhibit.Column{Name: "grouping"}), files(exhibit.Column{Name: "group"}),
		exhibit.Column{Name: "outcome", Says: func(o string) string { return thingOutcome(quality.Standout{Outcome: o}) }}, files(exhibit.Column{Name: "consequence", Type: exhibit.Count}),
		exhibit.Column{Name: "since"}, counts(exhibit.Answer, [2]string{"n", "n"}, [2]string{"count", "Seen"}), exhibit.Column{Name: "expected", Type: exhibit.Hours},
		exhibit.Column{Name: "excess", Heading: "More than expected", Type: exhibit.Hours, Formula: "{count}-{expected}"},
		exhibit.Column{Name: "odds_ratio", Heading: "Odds ratio", Type: exhibit.Ratio, Rank: exhibit.Figure}, interval(exhibit.Ratio, exhibit.Detail, "Its 95 % interval", "low", "OR low", "high", "OR high"),
		exhibit.Column{Name: "q", Type: exhibit.Probability, Rank: exhibit.Figure}, files(exhibit.Column{Name: "action", Heading: "Done since"}), files(exhibit.Column{Name: "detail", Type: exhibit.Prose})),
		Rows: exhibit.Each(things, func(s quality.Standout) []any {
			name := exhibit.Cell{Value: thingName(s), Link: where(s), Mark: exhibit.Higher}
			return []any{int64(s.Rank), name, s.Kind, s.Grouping, s.Group, s.Outcome, int64(s.Consequence), s.Since, s.N, s.Count, s.Expected, s.Excess, s.OddsRatio, s.Low, s.High, s.Q,
				s.Action, s.Detail}
		})}
}

// LeastSeen says how large a thing would have had to be to be likely seen, by the example of the largest group of a
// comparison; empty where there is none to compare with.
func LeastSeen(c quality.Comparison) (string, error) {
	if len(c.Groups) < 2 || c.Pooled.N == 0 {
		return "", nil
	}
	if c.Pooled.Count == c.Pooled.N {
		return "All " + unitsOf(c.Outcome) + " are " + outcomeNames[c.Outcome] + ": no group can stand out above that.", nil
	}
	largest := c.Groups[0]
	others := c.Pooled.N - largest.N
	if others <= 0 || largest.N == 0 {
		return "", nil
	}
	rate := float64(c.Pooled.Count-largest.Count) / float64(others)
	d, err := stats.DetectableRates(rate, largest.N, others, stats.UsualComparison())
	if err != nil {
		return "", err
	}
	if !d.HasAbove {
		return fmt.Sprintf("No difference of the largest %s, however large, would have been likely to show with so few.", GroupingName(c.By)), nil
	}
	return fmt.Sprintf("The largest %s, %s with %s, would have had to be at %s or more against the others' %s to be likely seen even if it alone were looked at (80%s%% power, 5%s%% "+
		"two-sided); smaller ones and smaller groups can be there and not be seen.", GroupingName(c.By), largest.Group,
		say.Several(largest.N, outcomeUnits[c.Outcome][0], unitsOf(c.Outcome)), say.Percent(d.Above), say.Percent(rate), say.NBSP, say.NBSP), nil
}
