package review

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
)

// scanChart stacks the open codes of each month by class, told apart by pattern as well as color.
func scanChart(c chart, months []quality.ScanMonth) (*chart, error) {
	bar := charts.NewBar()
	axis := opts.YAxis{Type: "value", MinInterval: 1, AxisLabel: &opts.AxisLabel{Color: grey},
		SplitLine: &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: faint}}}
	bar.SetGlobalOptions(append(drawing(c.ID, usualMargins), charts.WithXAxisOpts(monthAxis()), charts.WithYAxisOpts(axis),
		charts.WithAriaOpts(&opts.Aria{Enabled: opts.Bool(true), Decal: &opts.AriaDecal{Show: opts.Bool(true)}}))...)
	names := make([]string, len(months))
	for i, month := range months {
		names[i] = month.Month
	}
	bar.SetXAxis(names)
	for _, class := range []struct {
		name, color string
		of          func(quality.ScanMonth) int64
	}{
		{"new", rust, func(m quality.ScanMonth) int64 { return m.New }},
		{"remaining", blue, func(m quality.ScanMonth) int64 { return m.Remaining }},
		{"no scan before", grey, func(m quality.ScanMonth) int64 { return m.NoPreScan }},
	} {
		bars := make([]opts.BarData, len(months))
		for i, month := range months {
			bars[i] = opts.BarData{Value: class.of(month), Name: fmt.Sprintf("%s: %d open, %s, in %s",
				monthName(month.Month), class.of(month), class.name, several(month.Jobs, "scanned job", "scanned jobs"))}
		}
		bar.AddSeries(class.name, bars, charts.WithBarChartOpts(opts.BarChart{Stack: "open"}),
			charts.WithItemStyleOpts(opts.ItemStyle{Color: class.color}))
	}
	return finish(c, bar, bar.Validate)
}
