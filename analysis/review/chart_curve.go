package review

import (
	"fmt"
	"math"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/quality"
)

// dashes tell curves apart without their color.
var dashes = []string{"solid", "dashed", "dotted"}

var curveColors = []string{blue, rust, purple, green, grey, ink}

// curveChart shows the share of jobs that have come back, by days since they were closed. With one curve alone its
// interval is drawn too.
func curveChart(c chart, curves []quality.Curve, window int) (*chart, error) {
	line := charts.NewLine()
	line.SetGlobalOptions(append(drawing(c.ID, namedMargins),
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: 0, Max: window, Name: "days since the job was closed",
			NameLocation: "middle", NameGap: 26, SplitLine: &opts.SplitLine{Show: opts.Bool(false)},
			AxisLabel: &opts.AxisLabel{Color: grey}}),
		charts.WithYAxisOpts(percentAxis("")))...)
	for i, curve := range curves {
		name := "come back"
		if curve.Cohort != "" {
			name = fmt.Sprintf("%s (n %s)", sourceName(curve.Cohort), count(curve.N))
		}
		style := append(stroke(curveColors[i%len(curveColors)], dashes[i%len(dashes)], 2.2),
			charts.WithLineChartOpts(opts.LineChart{Symbol: "none", Step: "end"}))
		line.AddSeries(name, curveLine(curve, window, func(s survival) float64 { return s.share }), style...)
	}
	if len(curves) == 1 {
		band := append(stroke(grey, "dashed", 1.2), charts.WithLineChartOpts(opts.LineChart{Symbol: "none", Step: "end"}))
		line.AddSeries("95 % interval", curveLine(curves[0], window, func(s survival) float64 { return s.low }), band...)
		line.AddSeries("95 % interval", curveLine(curves[0], window, func(s survival) float64 { return s.high }), band...)
	}
	return finish(c, line, line.Validate)
}

// A survival is one step of a curve turned round: the share that has come back.
type survival struct{ day, share, low, high float64 }

func steps(curve quality.Curve) []survival {
	turned := []survival{{}}
	for _, step := range curve.Steps {
		s := survival{day: step.Day, share: 1 - step.Survival, low: 1 - step.Survival, high: 1 - step.Survival}
		if step.HasInterval {
			s.low, s.high = 1-step.Interval.High, 1-step.Interval.Low
		}
		turned = append(turned, s)
	}
	return turned
}

// curveLine gives the corners of a stepped line, carried on to the window's end. Values are rounded to a thousandth
// of a point, which is more than can be seen.
func curveLine(curve quality.Curve, window int, of func(survival) float64) []opts.LineData {
	var data []opts.LineData
	rounded := func(x float64) float64 { return math.Round(x*1e5) / 1e3 }
	all := steps(curve)
	for _, s := range all {
		data = append(data, opts.LineData{Value: []any{math.Round(s.day*1e3) / 1e3, rounded(of(s))}})
	}
	return append(data, opts.LineData{Value: []any{window, rounded(of(all[len(all)-1]))}})
}
