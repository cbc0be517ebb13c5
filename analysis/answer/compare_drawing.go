package answer

import (
	"fmt"
	"math"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// observedAgainst draws each group's count against what would be expected of the others in like work, between the limits
// that chance sets once groups are known to differ by more than chance among themselves.
func observedAgainst(c quality.Comparison, t *exhibit.Table) (*exhibit.Drawing, error) {
	var z []float64
	most, effect := 1.0, 1.0
	rest := 1 - c.Pooled.Rate()
	for _, g := range c.Groups {
		if g.Expected > 0 && rest > 0 {
			z = append(z, (float64(g.LikeCount)-g.Expected)/math.Sqrt(g.Expected*rest))
			most = max(most, g.Expected)
		}
		effect = max(effect, g.DesignEffect)
	}
	if len(z) < 2 {
		return nil, nil
	}
	spread, err := stats.Overdispersion(z, winsorised)
	if err != nil {
		return nil, err
	}
	limits := expectedLimits(most, rest*max(spread, effect))
	line := func(name, column string, look exhibit.Look) exhibit.Series {
		return exhibit.Series{Name: name, Column: column, Look: look, Rows: limits}
	}
	return &exhibit.Drawing{Title: compareFinding(c), Alt: "Each group's count over what would be expected of the others in like work, with limits of chance",
		Across: exhibit.Axis{Column: "expected", Name: "expected of the others in like work"}, Up: exhibit.Axis{Type: exhibit.Count, Name: "seen"},
		Label: func(i int) string { return groupLabel(c.Groups[i]) },
		Series: []exhibit.Series{line("as expected", "middle", exhibit.Centre), line("95 % limits", "low_95", exhibit.CurveLimit),
			line("95 % limits", "high_95", exhibit.CurveLimit), line("99.8 % limits", "low_998", exhibit.OuterLimit),
			line("99.8 % limits", "high_998", exhibit.OuterLimit), {Name: "no call", Column: groupPlain, Look: exhibit.Dot},
			{Name: "called higher", Column: groupHigher, Look: exhibit.Beyond, Label: "group"},
			{Name: "called lower", Column: groupLower, Look: exhibit.Under, Label: "group"}}}, nil
}

// winsorised is the share of the extreme groups at each end that set no spread. Source: Spiegelhalter (2005) Stat. Med.
// 24:1185-1202, section 4.2: 10 %.
const winsorised = 0.1

// expectedLimits are the limits around a count of which a number is expected, for numbers up to a little over the most;
// spread is the variance of the count over its expectation.
func expectedLimits(most, spread float64) *exhibit.Table {
	var rows [][]any
	for i := range 41 {
		expected := most * 1.05 * float64(i*i) / 1600 // close together where the limits bend
		wide := math.Sqrt(spread * expected)
		rows = append(rows, []any{expected, expected, max(0, expected-1.96*wide), expected + 1.96*wide, max(0, expected-3.09*wide), expected + 3.09*wide})
	}
	t := &exhibit.Table{Rows: exhibit.Given(rows...)}
	for _, name := range []string{"expected", "middle", "low_95", "high_95", "low_998", "high_998"} {
		t.Columns = append(t.Columns, exhibit.Column{Name: name, Type: exhibit.Level})
	}
	return t
}

func groupLabel(g quality.Group) string {
	return fmt.Sprintf("%s: %s of %s seen in like work, %s expected; rate %s", g.Group, say.Count(g.LikeCount), say.Count(g.LikeN),
		say.Number(g.Expected, 1), say.OutOf(g.Count, g.N))
}

// mostRanked is how many groups can be told apart on a page.
const mostRanked = 20

// rankedRates shows each group's rate with its interval, the highest on top. Only the largest groups are drawn: the
// table has them all.
func rankedRates(c quality.Comparison) *exhibit.Drawing {
	c.Groups = c.Groups[:min(mostRanked, len(c.Groups))] // the largest come first
	ranked := rankedTable(c)
	return &exhibit.Drawing{Title: "The same groups by their rate, with its interval", Alt: "Rates with 95 % intervals, the highest on top", Rows: ranked,
		Up: exhibit.Axis{Column: "group", Scale: exhibit.Names}, Across: exhibit.Axis{Type: exhibit.Share},
		Label: func(i int) string {
			return fmt.Sprintf("%v: %s", ranked.Value(i, "group"), say.OutOf(ranked.Value(i, "count").(int64), ranked.Value(i, "n").(int64)))
		},
		Series: []exhibit.Series{{Name: "95 % interval", Column: "wilson_low", To: "wilson_high", Look: exhibit.Span},
			{Name: "rate, no call", Column: ratePlain, Look: exhibit.Dot}, {Name: "called higher", Column: rateHigher, Look: exhibit.Beyond},
			{Name: "called lower", Column: rateLower, Look: exhibit.Under}}}
}

// Groups puts comparisons on one sheet, the highest rate of each first, to be filtered by the first two columns.
func Groups(a About, compared []quality.Comparison) exhibit.Exhibit {
	tables := make([]*exhibit.Table, len(compared))
	charts := exhibit.Exhibit{Name: "group-charts", Title: "Groups side by side, drawn",
		Sheet: exhibit.Sheet{Name: "Group charts", About: "The same groups as charts", Below: true, Scale: 55},
		Says: []string{"Dots are rates, lines their 95 % intervals; the highest rates first. Each chart draws rows of the sheet Groups as they stood: " +
			"sorting that sheet mixes the charts."},
		Table: &exhibit.Table{Columns: joined(exhibit.Column{Name: "by", Heading: "Compared by"}, exhibit.Column{Name: "outcome"},
			counts(exhibit.Answer, [2]string{"groups", "Groups"}, [2]string{"left_out", "Left out"})),
			Rows: exhibit.Each(compared, func(c quality.Comparison) []any {
				return []any{GroupingName(c.By), outcomeNames[c.Outcome], len(c.Groups), c.LeftOut}
			})}}
	for i, c := range compared {
		tables[i] = rankedTable(c)
		if len(c.Groups) > 1 {
			drawing := rankedRates(c)
			drawing.Title, drawing.Rows, drawing.Native = compareTitle(c), tables[i], true
			drawing.Series = []exhibit.Series{{Name: "rate", Column: "rate", Look: exhibit.Dot}, drawing.Series[0]}
			charts.Parts = append(charts.Parts, exhibit.Exhibit{Drawing: drawing})
		}
	}
	keys := []exhibit.Column{{Name: "by", Heading: "Compared by"}, {Name: "outcome", Heading: "Outcome"}}
	all := exhibit.Stack(keys, tables, func(i int) []any { return []any{GroupingName(compared[i].By), outcomeNames[compared[i].Outcome]} })
	for i := range all.Columns {
		if all.Columns[i].Name == "group" {
			all.Columns[i].Heading = "Group"
		}
	}
	return exhibit.Exhibit{Name: "groups", Title: "Groups side by side", Table: all, Parts: []exhibit.Exhibit{charts},
		Sheet: exhibit.Sheet{Name: "Groups", Keep: 3, About: "Technicians, bays, stands, boards, suppliers, brands, models and more, with intervals and calls"},
		Says: []string{"Filter by the first two columns; within each, the highest rate comes first. n are the units of the outcome, over all records up to " +
			a.monthWords() + ". The call is made like with like and allows for how many groups were looked at: who gets the hard vehicles or the worst " +
			"stand has the high rate, and that is no judgment of a person.",
			"Funnel limits are where 95 % and 99.8 % of groups of that size lie by chance around the rate of all. Shrunken: the rate drawn toward all groups' " +
				"mean, the more the fewer its units. Expected: what the others' rates in like work would give."}}
}
