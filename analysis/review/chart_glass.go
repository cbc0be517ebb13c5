package review

import (
	"fmt"
	"math"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// glassChart shows crude beside adjusted odds ratios with their intervals, a row each, on a logarithmic axis: 1 is no
// difference. A ratio that the counts do not determine has its row and no mark.
func glassChart(c chart, answers []GlassAnswer) (*chart, error) {
	var rows []ratioRow
	for _, a := range answers {
		rows = append(rows, ratioRow{sourceName(a.Source), "crude", a.OddsRatio, a.ORLow, a.ORHigh},
			ratioRow{sourceName(a.Source), likeWithLike, a.MHOddsRatio, a.MHLow, a.MHHigh})
	}
	names := make([]string, len(rows))
	for i, row := range rows {
		names[i] = row.label()
	}
	line := charts.NewLine()
	line.SetGlobalOptions(append(drawing(c.ID, namedMargins),
		charts.WithXAxisOpts(opts.XAxis{Type: "log", Name: "odds ratio against OEM",
			NameLocation: "middle", NameGap: 26, AxisLabel: &opts.AxisLabel{Color: grey, HideOverlap: opts.Bool(true)}}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Data: names, Inverse: opts.Bool(true),
			AxisLabel: &opts.AxisLabel{Color: ink, Interval: "0"}}))...)
	line.AddSeries("no difference", []opts.LineData{{Value: []any{1, 0}}, {Value: []any{1, len(rows) - 1}}},
		stroke(ink, "solid", 1)...)
	dots := map[string][]opts.ScatterData{}
	for i, row := range rows {
		if row.defined() {
			line.AddSeries("", row.interval(i), row.style()...)
			dots[row.kind] = append(dots[row.kind], opts.ScatterData{Value: []any{rounded(*row.ratio), i},
				Name: row.figures()})
		}
	}
	scatter := charts.NewScatter()
	label := charts.WithLabelOpts(opts.Label{Show: opts.Bool(true), Position: "top", Formatter: "{b}", Color: ink})
	scatter.AddSeries("crude", dots["crude"], label, charts.WithItemStyleOpts(opts.ItemStyle{Color: grey}),
		charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "emptyCircle", SymbolSize: 11}))
	scatter.AddSeries(likeWithLike, dots[likeWithLike], label, charts.WithItemStyleOpts(opts.ItemStyle{Color: rust}),
		charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "diamond", SymbolSize: 13}))
	line.Overlap(scatter)
	c.Height = 90 + 40*len(rows)
	return finish(c, line, line.Validate)
}

const likeWithLike = "like with like"

// A ratioRow is one odds ratio with its interval.
type ratioRow struct {
	source, kind     string
	ratio, low, high *float64
}

// defined reports whether the row can be drawn on a logarithmic axis.
func (r ratioRow) defined() bool {
	return r.ratio != nil && r.low != nil && r.high != nil && *r.low > 0
}

func (r ratioRow) label() string {
	if !r.defined() {
		return r.source + ", " + r.kind + ": –"
	}
	return r.source + ", " + r.kind
}

func (r ratioRow) figures() string {
	return fmt.Sprintf("%.2f (%.2f–%.2f)", *r.ratio, *r.low, *r.high)
}

func (r ratioRow) interval(row int) []opts.LineData {
	return []opts.LineData{{Value: []any{rounded(*r.low), row}}, {Value: []any{rounded(*r.high), row}}}
}

func (r ratioRow) style() []charts.SeriesOpts {
	if r.kind == likeWithLike {
		return stroke(rust, "dashed", 2.4)
	}
	return stroke(grey, "solid", 2.4)
}

// rounded keeps a thousandth, so that the last digits of two machines do not show.
func rounded(x float64) float64 { return math.Round(x*1e3) / 1e3 }
