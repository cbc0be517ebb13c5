package review

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
)

// A sparkline is the small twelve-month trend on a card.
type sparkline struct {
	scale      float64
	complement bool // draw the share spared
	unit       string
}

// lastPoints are the twelve months and the one before them.
func lastPoints(points []quality.TrendPoint) []quality.TrendPoint {
	return points[max(0, len(points)-13):]
}

// withTrend puts trend and its table on a card.
func (r Review) withTrend(c card, f Figure, s sparkline) (card, error) {
	recent := lastPoints(f.Points)
	t := &table{Caption: c.Name + " by month", Columns: append(words("Month"), columns(true, "Rate", "Count", "n")...)}
	var line []opts.LineData
	var followed, open []opts.ScatterData
	var months []string
	for _, p := range recent {
		rate, hits := p.Rate, p.Count
		if s.complement && rate != nil {
			spared := 1 - *rate
			rate, hits = &spared, p.N-p.Count
		}
		shown := percentOr(rate)
		if s.scale == 1 {
			shown = decimals(rate, 2)
		}
		months = append(months, p.Period)
		dot := opts.ScatterData{Name: monthName(p.Period) + ": " + shown + ", n " + count(p.N),
			Value: []any{p.Period, scaled(rate, s.scale)}}
		if p.IsMatured() {
			line, followed = append(line, opts.LineData{Value: scaled(rate, s.scale)}), append(followed, dot)
		} else {
			shown += " (not fully followed)"
			line, open = append(line, opts.LineData{}), append(open, dot)
		}
		t.Rows = append(t.Rows, []cell{text(p.Period), number(shown), number(count(hits)), number(count(p.N))})
	}
	c.Table = t
	drawn := charts.NewLine()
	drawn.SetGlobalOptions(sparkOptions(chartID("index", c.Name), s.scale)...)
	drawn.SetXAxis(months).AddSeries("followed", line, stroke(blue, "solid", 2)...)
	marks := charts.NewScatter()
	marks.AddSeries("followed", followed, charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "circle", SymbolSize: 6}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: blue}))
	marks.AddSeries("not fully followed", open,
		charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "emptyDiamond", SymbolSize: 10}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: purple}))
	drawn.Overlap(marks)
	var err error
	c.Chart, err = finish(chart{ID: chartID("index", c.Name), Title: c.Name + ", last twelve months",
		Alt: c.Name + " by month; the numbers are in the table below", Height: 150}, drawn, drawn.Validate)
	return c, err
}

// sparkOptions leave only what a small drawing can carry. The vertical axis need not begin at 0.
func sparkOptions(id string, scale float64) []charts.GlobalOpts {
	axis := percentAxis("")
	axis.AxisLabel.FontSize = 10
	axis.SplitNumber, axis.Min, axis.Scale = 2, nil, opts.Bool(true)
	if scale == 1 {
		axis.AxisLabel.Formatter = ""
	}
	months := monthAxis()
	months.AxisLabel.FontSize = 10
	return append(drawing(id, smallMargins), charts.WithYAxisOpts(axis), charts.WithXAxisOpts(months),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
}

// reworkTrend puts the hours of work done again on a card, month by month.
func (r Review) reworkTrend(c card) (card, error) {
	t := &table{Caption: "Rework by month",
		Columns: append(words("Month"), columns(true, "Hours", "Attempts", "Without an end")...)}
	months := r.lastMonths()
	var bars []opts.BarData
	for _, month := range months {
		sum := reworkIn(r.Failures.Rework, month)
		bars = append(bars, opts.BarData{Value: rounded(sum.hours),
			Name: fmt.Sprintf("%s: %.1f hours in %s attempts", monthName(month), sum.hours, count(sum.attempts))})
		t.Rows = append(t.Rows, []cell{text(month), number(fmt.Sprintf("%.1f", sum.hours)), number(count(sum.attempts)),
			number(count(sum.withoutEnd))})
	}
	c.Table = t
	id := chartID("index", c.Name)
	drawn := charts.NewBar()
	drawn.SetGlobalOptions(append(sparkOptions(id, 1), charts.WithYAxisOpts(opts.YAxis{Type: "value", Min: 0, SplitNumber: 2,
		AxisLabel: &opts.AxisLabel{Color: grey, FontSize: 10}, SplitLine: percentAxis("").SplitLine}))...)
	drawn.SetXAxis(months).AddSeries("hours", bars, charts.WithItemStyleOpts(opts.ItemStyle{Color: blue}))
	var err error
	c.Chart, err = finish(chart{ID: id, Title: c.Name + ", last twelve months",
		Alt: "Hours of rework by month; the numbers are in the table below", Height: 150}, drawn, drawn.Validate)
	return c, err
}
