package review

import (
	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
)

// A controlChart says how the periods of a trend are drawn.
type controlChart struct {
	chart
	points []quality.TrendPoint
	unit   string  // of the rates: tasks, jobs
	scale  float64 // 100 for shares in percent, 1 for occurrences a unit
}

// draw shows rates, centre and stepped limits. A signal is a triangle with its tests, a period that has not fully
// matured an open diamond off the line.
func (c controlChart) draw() (*chart, error) {
	line := charts.NewLine()
	axis := percentAxis("")
	if c.scale == 1 {
		axis.AxisLabel.Formatter = "{value}"
	}
	line.SetGlobalOptions(append(drawing(c.ID, usualMargins), charts.WithXAxisOpts(monthAxis()), charts.WithYAxisOpts(axis))...)
	months := make([]string, len(c.points))
	rates := make([]opts.LineData, len(c.points))
	var center, lower, upper []opts.LineData
	for i, p := range c.points {
		months[i] = p.Period
		if p.N > 0 && p.IsMatured() {
			rates[i] = opts.LineData{Value: scaled(p.Rate, c.scale)}
		}
		center = append(center, opts.LineData{Name: "centre", Value: scaled(p.Center, c.scale)})
		if !p.IsMatured() {
			p.Lower, p.Upper = nil, nil // limits are for months that can be called
		}
		lower = append(lower, opts.LineData{Name: "lower limit", Value: scaled(p.Lower, c.scale)})
		upper = append(upper, opts.LineData{Name: "upper limit", Value: scaled(p.Upper, c.scale)})
	}
	limit := append(stroke(grey, "dashed", 1.2),
		charts.WithLineChartOpts(opts.LineChart{Symbol: "none", ShowSymbol: opts.Bool(false), Step: "middle"}))
	line.SetXAxis(months).
		AddSeries("month", rates, stroke(blue, "solid", 2)...).
		AddSeries("centre", center, stroke(ink, "solid", 1)...).
		AddSeries("upper and lower limit", upper, limit...).
		AddSeries("upper and lower limit", lower, limit...)
	line.Overlap(c.marks())
	return finish(c.chart, line, line.Validate)
}

// marks are the periods that stand out by their shape.
func (c controlChart) marks() *charts.Scatter {
	var plain, signals, open []opts.ScatterData
	for i, p := range c.points {
		value := []any{p.Period, scaled(p.Rate, c.scale)}
		switch {
		case p.N > 0 && !p.IsMatured():
			open = append(open, opts.ScatterData{Name: c.label(p) + ", not fully followed", Value: value})
		case len(p.Signals) > 0:
			signals = append(signals, opts.ScatterData{Name: c.label(p) + ": " + signalsOf(c.points, i), Value: value})
		case p.N > 0:
			plain = append(plain, opts.ScatterData{Name: c.label(p), Value: value})
		}
	}
	marks := charts.NewScatter()
	marks.AddSeries("month", plain, charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "circle", SymbolSize: 8}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: blue}))
	if len(signals) > 0 {
		marks.AddSeries("signal", signals,
			charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "triangle", SymbolSize: 16}),
			charts.WithItemStyleOpts(opts.ItemStyle{Color: rust}))
	}
	if len(open) > 0 {
		marks.AddSeries("not fully followed", open,
			charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "emptyDiamond", SymbolSize: 13}),
			charts.WithItemStyleOpts(opts.ItemStyle{Color: purple}))
	}
	return marks
}

// label is a point in words, for the pointer.
func (c controlChart) label(p quality.TrendPoint) string {
	rate := percentOr(p.Rate)
	if c.scale == 1 {
		rate = decimals(p.Rate, 2)
	}
	return monthName(p.Period) + ": " + rate + ", " + count(p.Count) + " in " + count(p.N) + " " + c.unit
}
