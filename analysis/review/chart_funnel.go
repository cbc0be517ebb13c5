package review

import (
	"math"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// funnelChart shows each group's rate over its size, between the limits that chance sets for that size.
func funnelChart(c chart, groups quality.Comparison) (*chart, error) {
	scatter := charts.NewScatter()
	size := opts.XAxis{Type: "value", Name: outcomeUnits[groups.Outcome], NameLocation: "middle", NameGap: 26,
		Scale: opts.Bool(true), SplitLine: &opts.SplitLine{Show: opts.Bool(false)}, AxisLabel: &opts.AxisLabel{Color: grey, HideOverlap: opts.Bool(true)}}
	scatter.SetGlobalOptions(append(drawing(c.ID, namedMargins), charts.WithXAxisOpts(size), charts.WithYAxisOpts(percentAxis("")))...)
	var plain, different []opts.ScatterData
	for _, group := range groups.Groups {
		dot := opts.ScatterData{Value: []any{group.N, rounded(group.Rate * 100)}, Name: group.Group + ": " + percent(group.Rate) +
			", " + count(group.Count) + " of " + count(group.N)}
		if group.IsDifferent() {
			different = append(different, dot)
		} else {
			plain = append(plain, dot)
		}
	}
	scatter.AddSeries("no call", plain, charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "circle", SymbolSize: 9}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: blue}))
	if len(different) > 0 {
		scatter.AddSeries("called different (q < 0.05)", different,
			charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "triangle", SymbolSize: 16}),
			charts.WithItemStyleOpts(opts.ItemStyle{Color: rust}))
	}
	limits, err := funnelLines(groups)
	if err != nil {
		return nil, err
	}
	scatter.Overlap(limits)
	return finish(c, scatter, scatter.Validate)
}

// funnelLines draws the limits for all sizes up to a little over the largest group.
func funnelLines(groups quality.Comparison) (*charts.Line, error) {
	var low95, high95, low998, high998 []opts.LineData
	for _, n := range sizes(groups.Groups) {
		limits, err := stats.FunnelLimits(groups.Pooled.Rate(), n)
		if err != nil {
			return nil, err
		}
		at := func(rate float64) opts.LineData { return opts.LineData{Value: []any{n, rounded(rate * 100)}} }
		low95, high95 = append(low95, at(limits.Limits95.Low)), append(high95, at(limits.Limits95.High))
		low998, high998 = append(low998, at(limits.Limits998.Low)), append(high998, at(limits.Limits998.High))
	}
	first, last := low95[0].Value.([]any)[0], low95[len(low95)-1].Value.([]any)[0]
	pooled := rounded(groups.Pooled.Rate() * 100)
	line := charts.NewLine()
	line.AddSeries("all together", []opts.LineData{{Value: []any{first, pooled}}, {Value: []any{last, pooled}}},
		stroke(ink, "solid", 1)...)
	line.AddSeries("95 % limits", low95, stroke(grey, "dashed", 1.2)...)
	line.AddSeries("95 % limits", high95, stroke(grey, "dashed", 1.2)...)
	line.AddSeries("99.8 % limits", low998, stroke(grey, "dotted", 1.6)...)
	line.AddSeries("99.8 % limits", high998, stroke(grey, "dotted", 1.6)...)
	return line, nil
}

// sizes are those at which a funnel is worked out: close together where it is narrow, some 60 in all, from half
// the smallest group on: further left the limits would dwarf the groups.
func sizes(groups []quality.Group) []int64 {
	largest, smallest := int64(10), int64(math.MaxInt64)
	for _, group := range groups {
		largest, smallest = max(largest, group.N), min(smallest, group.N)
	}
	largest += largest / 20
	var steps []int64
	for n := max(5, smallest/2); n < largest; n = max(n+1, int64(math.Ceil(float64(n)*1.07))) {
		steps = append(steps, n)
	}
	return append(steps, largest)
}
