package review

import (
	"fmt"
	"time"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
)

// onsetChart shows a group's weekly rates as dots and their moving average between its limits. A week whose average is
// beyond them is a triangle.
func onsetChart(c chart, view quality.OnsetView) (*chart, error) {
	line := charts.NewLine()
	line.SetGlobalOptions(append(drawing(c.ID, usualMargins), charts.WithXAxisOpts(monthAxis()), charts.WithYAxisOpts(percentAxis("")))...)
	var weeks []string
	var average, low, high, expected []opts.LineData
	var dots, beyond []opts.ScatterData
	for _, p := range view.Points {
		weeks = append(weeks, p.Week)
		average = append(average, opts.LineData{Value: rounded(p.Average * 100)})
		low = append(low, opts.LineData{Value: rounded(p.Low * 100)})
		high = append(high, opts.LineData{Value: rounded(p.High * 100)})
		expected = append(expected, opts.LineData{Value: rounded(view.Expected * 100)})
		label := fmt.Sprintf("%s: %s, %s of %s tasks", p.Week, percent(p.Rate), count(p.Count), count(p.N))
		dots = append(dots, opts.ScatterData{Name: label, Value: []any{p.Week, rounded(p.Rate * 100)}})
		if p.Beyond {
			beyond = append(beyond, opts.ScatterData{Name: label + ", average " + percent(p.Average) + " beyond its limits",
				Value: []any{p.Week, rounded(p.Average * 100)}})
		}
	}
	line.SetXAxis(weeks).
		AddSeries("moving average", average, stroke(blue, "solid", 2.2)...).
		AddSeries("all groups", expected, stroke(ink, "solid", 1)...).
		AddSeries("limits of the average", low, stroke(grey, "dashed", 1.2)...).
		AddSeries("limits of the average", high, stroke(grey, "dashed", 1.2)...)
	scatter := charts.NewScatter()
	scatter.AddSeries("week", dots, charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "circle", SymbolSize: 4}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: grey}))
	if len(beyond) > 0 {
		scatter.AddSeries("average beyond its limits", beyond,
			charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "triangle", SymbolSize: 10}),
			charts.WithItemStyleOpts(opts.ItemStyle{Color: rust}))
	}
	line.Overlap(scatter)
	return finish(c, line, line.Validate)
}

// mostReadings is how many readings a drift chart holds; a stand of a large shop can have a hundred thousand.
const mostReadings = 1500

// driftChart shows single readings in their order, with centre, limits and the bounds of the tolerance.
func driftChart(c chart, view quality.DriftView) (*chart, error) {
	points := view.Points[max(0, len(view.Points)-mostReadings):]
	line := charts.NewLine()
	axis := percentAxis("")
	axis.AxisLabel.Formatter, axis.Min = "", nil
	line.SetGlobalOptions(append(drawing(c.ID, usualMargins), charts.WithXAxisOpts(opts.XAxis{Type: "time",
		Min: monthStart(points[0].TakenAt, 0), Max: monthStart(points[len(points)-1].TakenAt, 1),
		AxisLabel: &opts.AxisLabel{Color: grey, HideOverlap: opts.Bool(true)}}), charts.WithYAxisOpts(axis))...)
	var inside, signals []opts.ScatterData
	var first, last string
	for _, p := range points {
		at := p.TakenAt.Format("2006-01-02T15:04:05")
		if first == "" {
			first = at
		}
		last = at
		dot := opts.ScatterData{Value: []any{at, rounded(p.Deviation)},
			Name: fmt.Sprintf("%s, %s/%s: %g %s, deviation %.2f", moment(&p.TakenAt), p.Shop, p.JobNo, p.Value, p.Unit, p.Deviation)}
		if len(p.Signals) > 0 {
			signals = append(signals, dot)
		} else {
			inside = append(inside, dot)
		}
	}
	level := func(y float64) []opts.LineData {
		return []opts.LineData{{Value: []any{first, rounded(y)}}, {Value: []any{last, rounded(y)}}}
	}
	line.AddSeries("centre", level(view.Center), stroke(ink, "solid", 1)...).
		AddSeries("limits of single readings", level(view.Lower), stroke(grey, "dashed", 1.2)...).
		AddSeries("limits of single readings", level(view.Upper), stroke(grey, "dashed", 1.2)...).
		AddSeries("tolerance", level(-1), stroke(purple, "dotted", 1.6)...).
		AddSeries("tolerance", level(1), stroke(purple, "dotted", 1.6)...)
	scatter := charts.NewScatter()
	scatter.AddSeries("reading", inside, charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "circle", SymbolSize: 4}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: blue}))
	scatter.AddSeries("reading with a signal", signals, charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "triangle", SymbolSize: 8}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: rust}))
	line.Overlap(scatter)
	return finish(c, line, line.Validate)
}

// monthStart is the first day of a moment's month, or of a later one, so that a time axis begins and ends on it.
func monthStart(t time.Time, later int) string {
	return time.Date(t.Year(), t.Month()+time.Month(later), 1, 0, 0, 0, 0, time.UTC).Format("2006-01-02")
}
