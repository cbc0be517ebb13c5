package review

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
)

// reworkChart stacks the hours of work done again by cause, told apart by pattern as well as color.
func reworkChart(c chart, lines []quality.ReworkLine, months []string) (*chart, error) {
	bar := charts.NewBar()
	axis := opts.YAxis{Type: "value", Name: "hours", AxisLabel: &opts.AxisLabel{Color: grey}, SplitLine: percentAxis("").SplitLine}
	bar.SetGlobalOptions(append(drawing(c.ID, namedMargins), charts.WithXAxisOpts(monthAxis()), charts.WithYAxisOpts(axis),
		charts.WithAriaOpts(&opts.Aria{Enabled: opts.Bool(true), Decal: &opts.AriaDecal{Show: opts.Bool(true)}}))...)
	bar.SetXAxis(months)
	for _, cause := range []struct{ word, name, color string }{
		{quality.RepeatCause, "repeats", blue}, {quality.ComebackCause, "comebacks", rust},
	} {
		bars := make([]opts.BarData, len(months))
		for i, month := range months {
			hours := reworkHours(lines, month, cause.word)
			bars[i] = opts.BarData{Value: rounded(hours), Name: fmt.Sprintf("%s, %s: %.1f hours", monthName(month), cause.name, hours)}
		}
		bar.AddSeries(cause.name, bars, charts.WithBarChartOpts(opts.BarChart{Stack: "hours"}),
			charts.WithItemStyleOpts(opts.ItemStyle{Color: cause.color}))
	}
	return finish(c, bar, bar.Validate)
}

// reworkHours sums one cause in one month.
func reworkHours(lines []quality.ReworkLine, month, cause string) float64 {
	hours := 0.0
	for _, line := range lines {
		if line.Month == month && line.Cause == cause {
			hours += line.Hours
		}
	}
	return hours
}
