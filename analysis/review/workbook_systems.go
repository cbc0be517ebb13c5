package review

import (
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/quality"
)

// systemLeaf compares the month's systems with the twelve months before.
func (r Review) systemLeaf() (*leaf, error) {
	listed := r.Failures.Systems
	rows := make([][]any, len(listed))
	for i, now := range listed {
		low, high, err := liveWilsonOf("Count", "n", now.Missed())
		if err != nil {
			return nil, err
		}
		before := systemNamed(r.Failures.SystemsBefore, now.System)
		rows[i] = []any{plain(now.System), now.NotFirstPass, now.Tasks, liveShare("Count", "n", now.Missed()), low, high, now.AfterPass,
			now.Unresolved, now.Attempts, before.NotFirstPass, before.Tasks, liveShare("Count before", "n before", before.Missed())}
	}
	g := &grid{rows: len(rows), sorts: true, row: func(i int) []any { return rows[i] }, columns: []gridColumn{{"System", asText}, {"Count", asCount},
		{"n", asCount}, {"Rate", asShare}, {"95 % low", asShare}, {"95 % high", asShare}, {"Repeated after a pass", asCount},
		{"Left unfinished", asCount}, {"Attempts", asCount}, {"Count before", asCount}, {"n before", asCount}, {"Rate before", asShare}}}
	l := &leaf{name: "Systems", title: "Tasks not first pass by system, " + monthName(r.About.Month), keep: 1, grids: []*grid{g},
		about: "Repeats and failures of the month by system, beside the twelve months before",
		says: []string{"n are calibration tasks, count those not first pass; “before” are the twelve months before. Small numbers swing widely: read the " +
			"interval before the rate."}}
	l.lay()
	if len(rows) > 0 {
		c := intervalChart(g, 0, len(rows)-1, "System", "Share not first pass by system")
		c.lines = append(c.lines, chartLine{name: g.heading("Rate before"), values: g.whole("Rate before"), color: purple, marker: "diamond",
			hollow: true, bare: true})
		l.charts = []bookChart{c}
	}
	return l, nil
}

func systemNamed(results []quality.SystemResult, name string) quality.SystemResult {
	for _, result := range results {
		if result.System == name {
			return result
		}
	}
	return quality.SystemResult{System: name}
}

// intervalChart draws the rates of rows i to j, each with its interval as a line.
func intervalChart(g *grid, i, j int, category, title string) bookChart {
	return bookChart{kind: excelize.Line, title: title, categories: g.span(category, i, j), format: "0%", intervals: true,
		alt: title + ", with 95 % intervals", lines: []chartLine{
			{name: g.heading("Rate"), values: g.span("Rate", i, j), color: blue, marker: "circle", bare: true},
			{name: g.heading("95 % low"), values: g.span("95 % low", i, j), color: grey, marker: "dash", bare: true},
			{name: g.heading("95 % high"), values: g.span("95 % high", i, j), color: grey, marker: "dash", bare: true}}}
}

// failureLeaf sorts the attempts that did not complete by their code.
func (r Review) failureLeaf() *leaf {
	failures := r.Failures.Codes
	g := &grid{rows: len(failures.Failures), columns: []gridColumn{{"Code", asText}, {"Usual text", asText}, {"Attempts", asCount}, {"Share", asShare},
		{"Cumulative", asShare}, {"Jobs", asCount}, {"Tried again", asCount}, {"Completed next", asCount}, {"Next rate", asShare},
		{"Next low", asShare}, {"Next high", asShare}, {"Matured jobs", asCount}, {"Came back", asCount}, {"Back rate", asShare},
		{"Back low", asShare}, {"Back high", asShare}, {"p", asProbability}}}
	g.row = func(i int) []any {
		f := failures.Failures[i]
		nextLow, nextHigh := liveWilson("Completed next", "Tried again", f.NextLow, f.NextHigh)
		backLow, backHigh := liveWilson("Came back", "Matured jobs", f.BackLow, f.BackHigh)
		name := any("none recorded")
		if f.Name != nil {
			name = *f.Name
		}
		sums := live{"{Cumulative^}+{Share}", f.Cumulative}
		if i == 0 {
			sums.text = "{Share}"
		}
		return []any{name, f.Usual, f.N, live{"{Attempts}/SUM({Attempts:})", f.Share}, sums, f.Jobs, f.Retried, f.CompletedNext,
			liveRate("Completed next", "Tried again", f.NextShare), nextLow, nextHigh, f.Matured, f.CameBack,
			liveRate("Came back", "Matured jobs", f.BackShare), backLow, backHigh, f.BackP}
	}
	base := failures.Base
	l := &leaf{name: "Failure codes", title: "Attempts that did not complete, by code, twelve months to " + monthName(r.About.Month), keep: 1,
		grids: []*grid{g}, below: true, about: "Why attempts did not complete, and what came of them",
		says: []string{"The commonest first. “Next” is whether the attempt that followed completed. “Back” is whether the job came back within the window; p " +
			"is Fisher's exact test against the " + several(base.N, "matured job", "matured jobs") + " without a failed attempt, " + count(base.Count) +
			" of which came back. The cumulative column builds on the row above: do not sort."}}
	l.lay()
	if n := min(len(failures.Failures), mostCharted); n > 0 {
		l.charts = []bookChart{{kind: excelize.Col, title: "Attempts that did not complete, by code", categories: g.span("Code", 0, n-1), format: "0",
			alt:   "Bars: attempts that did not complete, the commonest code first",
			lines: []chartLine{{name: g.heading("Attempts"), values: g.span("Attempts", 0, n-1), color: blue}}}}
	}
	return l
}

// mostCharted is how many groups a chart can name.
const mostCharted = 30
