package review

import (
	"fmt"

	"plumbline/analysis/quality"
)

// summaryLeaf is the opening page: three sentences, the figures that the month is judged by, and what was done in it.
func (r Review) summaryLeaf(trends []*leaf, again *leaf) (*leaf, error) {
	said, err := monthSentences(r)
	if err != nil {
		return nil, err
	}
	if !r.About.MonthEnded {
		said = append(said, "The records do not reach to the end of "+monthName(r.About.Month)+": the month may not be whole.")
	}
	figures := r.figureRows(trends)
	work := r.workRows(again)
	now, before := r.About.From, r.About.From.AddDate(0, -1, 0)
	l := &leaf{name: "Summary", title: bookTitle(r.About), says: said, about: "What the month was: its figures beside the usual, and the work done", below: true,
		grids: []*grid{
			{caption: "The figures", rows: len(figures), row: func(i int) []any { return figures[i] }, columns: []gridColumn{
				{"Figure", asText}, {"Month", asMonth}, {"Count", asCount}, {"n", asCount}, {"Rate", asShare}, {"95 % low", asShare},
				{"95 % high", asShare}, {"Month before", asMonth}, {"Count before", asCount}, {"n before", asCount}, {"Rate before", asShare},
				{"Change", asChange}, {"Usual", asShare}, {"Lower limit", asShare}, {"Upper limit", asShare}, {"Call", asText}}},
			{caption: "The work", rows: len(work), row: func(i int) []any { return work[i] }, columns: []gridColumn{{"What", asText},
				{now.Format("2006-01"), asCount}, {before.Format("2006-01"), asCount}}},
		}}
	l.lay()
	for _, trend := range trends {
		l.charts = append(l.charts, trend.charts...)
	}
	return l, nil
}

// changeColumn is the place of the change in the row of a figure.
const changeColumn = 11

// A summaryFigure ties a figure of the month to the sheet that its chart is on.
type summaryFigure struct {
	name, says string
	trend      int // place among the trend sheets
	complement bool
	as         form
}

var summaryFigures = []summaryFigure{
	{"first_pass", "First pass (tasks)", 0, true, asShare},
	{"comeback", "Comebacks (jobs followed for the whole window)", 1, false, asShare},
	{"open_faults", "Open post-scan faults (a scanned job)", 3, false, asPerUnit},
}

func (r Review) figureRows(trends []*leaf) [][]any {
	var rows [][]any
	for _, f := range summaryFigures {
		figure := figureNamed(r.Figures, f.name)
		if figure == nil || figure.Now.Rate == nil {
			rows = append(rows, []any{f.says, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, "nothing to judge"})
			continue
		}
		rows = append(rows, f.row(*figure, trends[f.trend].grids[0]))
	}
	return rows
}

func (f summaryFigure) row(figure Figure, trend *grid) []any {
	now, before := figure.Now, figure.Before
	low, high := liveWilson("Count", "n", now.Low, now.High)
	if f.as == asPerUnit {
		low, high = liveGarwood("Count", "n", now.Low, now.High)
	}
	i := placeOf(figure.Points, now.Period)
	row := []any{f.says, figure.Points[i].Starts, now.Count, now.N, liveRate("Count", "n", now.Rate), low, high}
	if before == nil || before.Rate == nil {
		row = append(row, nil, nil, nil, nil, nil)
	} else {
		change := *now.Rate - *before.Rate
		row = append(row, figure.Points[placeOf(figure.Points, before.Period)].Starts, before.Count, before.N,
			liveRate("Count before", "n before", before.Rate), live{`IF(OR({Rate}="",{Rate before}=""),"",{Rate}-{Rate before})`, change})
	}
	row = append(row, f.usual(figure.Points[i], trend)...)
	for k, value := range row {
		if _, isLive := value.(live); isLive && f.as == asPerUnit {
			row[k] = shaped{value, asPerUnit}
			if k == changeColumn {
				row[k] = shaped{value, asUnitChange}
			}
		}
	}
	return append(row, call(figure.Points, i))
}

// calls are what a control chart allows to be said, in a word.
var calls = map[judgement]string{unjudged: "not yet to be judged", usual: "no more than chance", better: "better", worse: "worse",
	mixed: "signals both ways"}

// call is the word for a point of a chart.
func call(points []quality.TrendPoint, i int) any {
	if !hasBaseline(points) {
		return "nothing to compare with"
	}
	switch judged := judge(points, i); judged {
	case better, worse, mixed:
		return toned{"▲ " + calls[judged], signalTone}
	default:
		return calls[judged]
	}
}

// usual points to the chart's centre and limits; first pass is what the chart of its opposite leaves.
func (f summaryFigure) usual(p quality.TrendPoint, trend *grid) []any {
	usual := make([]any, 3)
	for k, bound := range []struct {
		column string
		value  *float64
	}{{"Centre", p.Center}, {"Lower limit", p.Lower}, {"Upper limit", p.Upper}} {
		if bound.value == nil || !p.IsMatured() {
			continue
		}
		found := trend.of(bound.column, "Month", "{Month}")
		if !f.complement {
			usual[k] = live{found, bound.value}
			continue
		}
		usual[(3-k)%3] = live{"1-" + found, 1 - *bound.value} // the lower limit's rest is the upper
	}
	return usual
}

// workRows are what was done in the month and in the one before, rework with its cost among it.
func (r Review) workRows(again *leaf) [][]any {
	now, before := r.About.Volume, r.About.Before
	rows := [][]any{
		{"Jobs opened", now.Opened, before.Opened}, {"Jobs closed", now.Closed, before.Closed},
		{"of these, calibrated", now.CalibratedClosed, before.CalibratedClosed},
		{"Calibration tasks", now.Tasks, before.Tasks}, {"Calibration attempts", now.Attempts, before.Attempts},
		{"Vehicles that came back (counted)", now.Returns, before.Returns},
	}
	g := again.grids[0]
	for _, line := range []struct {
		says, column string
		as           form
	}{{"Rework, hours", "Hours", asHours}, {"Rework, attempts", "Attempts", asCount}, {"of these, without an end on record", "Without an end", asCount},
		{"Rework, cost", "Cost", asMoney}} {
		row := []any{line.says}
		for back := range 2 {
			month := r.About.From.AddDate(0, -back, 0)
			found := g.of(line.column, "Month", fmt.Sprintf("DATE(%d,%d,1)", month.Year(), month.Month()))
			row = append(row, shaped{live{found, r.reworkValue(line.column, back)}, line.as})
		}
		rows = append(rows, row)
	}
	return rows
}
