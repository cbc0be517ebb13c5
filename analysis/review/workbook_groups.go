package review

import (
	"fmt"
	"slices"

	"plumbline/analysis/quality"
)

// A placedGroup is a group with the comparison that it belongs to.
type placedGroup struct {
	in    *quality.Comparison
	group quality.Group
}

// comparisons are all that the review holds: people and equipment, what only the workbook shows, glass suppliers and
// brands by each outcome.
func (r Review) comparisons() []quality.Comparison {
	return slices.Concat(r.People.Groups, r.Groups, r.Glass.Groups)
}

// groupLeaves compare groups: one table of all groupings, and their charts.
func (r Review) groupLeaves() []*leaf {
	compared := r.comparisons()
	var rows []placedGroup
	var blocks [][2]int // first and last row of each comparison
	for i := range compared {
		groups := slices.Clone(compared[i].Groups)
		sortGroups(groups)
		blocks = append(blocks, [2]int{len(rows), len(rows) + len(groups) - 1})
		for _, group := range groups {
			rows = append(rows, placedGroup{&compared[i], group})
		}
	}
	g := &grid{rows: len(rows), sorts: true, columns: groupColumns, row: func(i int) []any { return rows[i].row() }}
	l := &leaf{name: "Groups", title: "Groups side by side", keep: 3, grids: []*grid{g},
		about: "Technicians, bays, stands, boards, suppliers, brands, models and more, with intervals and limits",
		says: []string{"Filter by the first two columns; within each, the highest rate comes first. n are the units of the outcome, over all records up to " +
			monthName(r.About.Month) + ". A high rate is no judgment of a person: who gets the hard vehicles or the worst stand has it. Higher and lower: " +
			"like with like (a task's system, make and model; a job's reason, make and model), like q < 0.05.",
			"All together is the pooled rate of the grouping; funnel limits are where 95 % and 99.8 % of groups of that size lie by chance. Shrunken: the rate " +
				"drawn toward all groups' mean, the more the fewer its units. p: Fisher's exact test against all other groups; q: allowing for how many " +
				"were looked at."}}
	l.lay()
	return []*leaf{l, chartLeaf(g, compared, blocks)}
}

var groupColumns = []gridColumn{{"Compared by", asText}, {"Outcome", asText}, {"Group", asText}, {"Count", asCount}, {"n", asCount}, {"Rate", asShare},
	{"95 % low", asShare}, {"95 % high", asShare}, {"All together", asShare}, {"Shrunken", asShare}, {"95 % limit low", asShare},
	{"95 % limit high", asShare}, {"99.8 % limit low", asShare}, {"99.8 % limit high", asShare}, {"p", asProbability}, {"q", asProbability},
	{"Like n", asCount}, {"Like count", asCount}, {"Expected", asStandard}, {"Like odds ratio", asRatio}, {"Like low", asRatio},
	{"Like high", asRatio}, {"Like p", asProbability}, {"Like q", asProbability}, {"Call", asText}}

func (p placedGroup) row() []any {
	low, high := liveWilson("Count", "n", &p.group.WilsonLow, &p.group.WilsonHigh)
	call := any(callName(p.group))
	switch {
	case p.group.IsDifferent():
		call = toned{callName(p.group), signalTone}
	case call == "":
		call = nil
	}
	pooled := p.in.Pooled.Rate()
	sum := func(column string) string {
		return "SUMIFS({" + column + ":},{Compared by:},{Compared by},{Outcome:},{Outcome})"
	}
	return []any{groupingName(p.in.By), plain(string(p.in.Outcome)), p.group.Group, p.group.Count, p.group.N,
		liveRate("Count", "n", &p.group.Rate), low, high, live{sum("Count") + "/" + sum("n"), pooled}, p.group.Shrunken, p.group.Funnel95Low,
		p.group.Funnel95High, p.group.Funnel998Low, p.group.Funnel998High, p.group.P, p.group.Q,
		p.group.LikeN, p.group.LikeCount, p.group.Expected, p.group.LikeOddsRatio, p.group.LikeLow, p.group.LikeHigh, p.group.LikeP,
		p.group.LikeQ, call}
}

// chartLeaf holds the charts of the groupings, which refer to the table.
func chartLeaf(g *grid, compared []quality.Comparison, blocks [][2]int) *leaf {
	l := &leaf{name: "Group charts", title: "Groups side by side, drawn", about: "The same groups as charts", below: true, scale: 55,
		says: []string{fmt.Sprintf("Dots are rates, lines their 95 %% intervals; at most %d groups a chart, the highest rates first. Each chart draws rows of the sheet "+
			"Groups as they stood: sorting that sheet mixes the charts.", mostCharted)}}
	listed := &grid{columns: []gridColumn{{"Compared by", asText}, {"Outcome", asText}, {"Groups", asCount}, {"Left out", asCount}}}
	var rows [][]any
	for i, c := range compared {
		rows = append(rows, []any{groupingName(c.By), plain(string(c.Outcome)), int64(len(c.Groups)), c.LeftOut})
		if len(c.Groups) < 2 {
			continue
		}
		first, last := blocks[i][0], min(blocks[i][1], blocks[i][0]+mostCharted-1)
		title := fmt.Sprintf("%s by %s", sentence(outcomeNames[c.Outcome]), groupingName(c.By))
		chart := intervalChart(g, first, last, "Group", title)
		chart.lines = append(chart.lines, chartLine{name: g.heading("All together"), values: g.span("All together", first, last), color: ink})
		l.charts = append(l.charts, chart)
	}
	listed.rows, listed.row = len(rows), func(i int) []any { return rows[i] }
	l.grids = []*grid{listed}
	return l.lay()
}
