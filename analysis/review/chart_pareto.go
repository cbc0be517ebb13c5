package review

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
)

// paretoChart shows the commonest failures as bars, the commonest on top.
func paretoChart(c chart, pattern quality.FailurePattern) (*chart, error) {
	shown := pattern.Failures[:min(12, len(pattern.Failures))]
	bar := charts.NewBar()
	var names []string
	var bars []opts.BarData
	for _, f := range shown {
		name := "no code"
		if f.Name != nil {
			name = *f.Name
		}
		names = append(names, name)
		bars = append(bars, opts.BarData{Value: f.N,
			Name: fmt.Sprintf("%s: %s, %s, with all above %s", failureName(f), several(f.N, "attempt", "attempts"), percent(f.Share),
				percent(f.Cumulative))})
	}
	bar.SetGlobalOptions(append(drawing(c.ID, bareMargins), charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}),
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Name: "attempts", NameLocation: "middle", NameGap: 26,
			AxisLabel: &opts.AxisLabel{Color: grey, HideOverlap: opts.Bool(true)}}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Data: names, Inverse: opts.Bool(true),
			AxisLabel: &opts.AxisLabel{Color: ink, Interval: "0", Width: 130, Overflow: "truncate"}}))...)
	bar.AddSeries("attempts", bars, charts.WithItemStyleOpts(opts.ItemStyle{Color: blue}),
		charts.WithLabelOpts(opts.Label{Show: opts.Bool(true), Position: "right", Formatter: "{c}", Color: ink}))
	c.Height = 60 + 28*len(shown)
	return finish(c, bar, bar.Validate)
}
