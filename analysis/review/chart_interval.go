package review

import (
	"strconv"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
)

// rankedChart shows each group's rate with its interval, the highest on top, and the rate of all as a line. Only the
// largest groups are drawn: the table has them all.
func rankedChart(c chart, groups quality.Comparison) (*chart, error) {
	ranked := ranking(groups)
	line := charts.NewLine()
	names := make([]string, len(ranked))
	for i, group := range ranked {
		names[i] = group.Group + " (n " + count(group.N) + ")"
	}
	rates := percentAxis("")
	line.SetGlobalOptions(append(drawing(c.ID, usualMargins),
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: 0, AxisLabel: rates.AxisLabel, SplitLine: rates.SplitLine}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Data: names, Inverse: opts.Bool(true),
			AxisLabel: &opts.AxisLabel{Color: ink, Width: 130, Overflow: "truncate"}}))...)
	var dots, different []opts.ScatterData
	for i, group := range ranked {
		row := strconv.Itoa(i)
		bar := []opts.LineData{{Value: []any{rounded(group.WilsonLow * 100), i}}, {Value: []any{rounded(group.WilsonHigh * 100), i}}}
		line.AddSeries("95 % interval", bar, append(stroke(grey, "solid", 3), charts.WithSeriesId("interval-"+row))...)
		dot := opts.ScatterData{Value: []any{rounded(group.Rate * 100), i}, Name: group.Group + ": " + percent(group.Rate) + ", " +
			count(group.Count) + " of " + count(group.N) + ", 95 % interval " + between(&group.WilsonLow, &group.WilsonHigh)}
		if group.IsDifferent() {
			different = append(different, dot)
		} else {
			dots = append(dots, dot)
		}
	}
	pooled := rounded(groups.Pooled.Rate() * 100)
	line.AddSeries("all together", []opts.LineData{{Value: []any{pooled, 0}}, {Value: []any{pooled, len(ranked) - 1}}},
		stroke(ink, "dashed", 1.2)...)
	scatter := charts.NewScatter()
	scatter.AddSeries("rate, no call", dots, charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "circle", SymbolSize: 9}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: blue}))
	if len(different) > 0 {
		scatter.AddSeries("rate, called different", different,
			charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "triangle", SymbolSize: 15}),
			charts.WithItemStyleOpts(opts.ItemStyle{Color: rust}))
	}
	line.Overlap(scatter)
	c.Height = 90 + 26*len(ranked)
	return finish(c, line, line.Validate)
}

// mostRanked is how many groups can be told apart on a page.
const mostRanked = 20

// ranking gives the largest groups by rate, the highest first.
func ranking(groups quality.Comparison) []quality.Group {
	largest := groups.Groups[:min(mostRanked, len(groups.Groups))]
	ranked := append([]quality.Group{}, largest...)
	sortGroups(ranked)
	return ranked
}
