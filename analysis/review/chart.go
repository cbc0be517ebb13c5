package review

import (
	"encoding/json"
	"html/template"
	"slices"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// A chart is a drawing for the page's script, with what it shows in words for those who cannot see it.
type chart struct {
	ID     string // from the page's and the chart's name, so that it is the same every time
	Title  string // what it shows: the finding, not the subject
	Alt    string
	Height int // px
	Option template.JS
}

// The colors, each also told apart by shape, dash or text. All have a contrast of 4.5 or more on white.
const (
	ink    = "#1f2a30"
	blue   = "#1d5b87"
	rust   = "#a8400f"
	grey   = "#5d6870"
	faint  = "#d9dcd8"
	purple = "#6a3d80"
	green  = "#2f6b45"
)

// margins are the room around a drawing, in px; the labels of its axes are inside.
type margins struct{ left, top, right, bottom string }

var (
	usualMargins = margins{"8", "56", "24", "28"}
	namedMargins = margins{"8", "60", "24", "40"} // with a name under the horizontal axis and a legend of two lines
	bareMargins  = margins{"8", "8", "40", "40"}  // without a legend
	smallMargins = margins{"4", "12", "12", "10"}
)

// drawing is what all charts start from: no animation, so that a printed page is complete, and room for labels.
func drawing(id string, room margins) []charts.GlobalOpts {
	return []charts.GlobalOpts{
		charts.WithInitializationOpts(opts.Initialization{ChartID: id, AssetsHost: "assets/", Renderer: "svg"}),
		charts.WithAnimation(false),
		charts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "item", Formatter: "{b}"}),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(true), Top: "0", Left: "0", ItemWidth: 20, ItemHeight: 11,
			TextStyle: &opts.TextStyle{Color: ink, FontSize: 12}}),
		charts.WithColorsOpts(opts.Colors{blue, rust, purple, green, grey, ink}),
		charts.WithGridOpts(opts.Grid{Left: room.left, Top: room.top, Right: room.right, Bottom: room.bottom,
			ContainLabel: opts.Bool(true)}),
	}
}

// finish turns a drawing into what the page carries. Everything in it is ours or was put there as a JSON string, in
// which the characters that could end a script are escaped.
func finish(c chart, drawn interface{ JSON() map[string]any }, validate func()) (*chart, error) {
	validate()
	parts := drawn.JSON()
	legend := parts["legend"].(opts.Legend)
	legend.Data = legendItems(parts["series"].(charts.MultiSeries))
	parts["legend"] = legend
	option, err := json.Marshal(parts)
	if err != nil {
		return nil, err
	}
	c.Option = template.JS(option)
	if c.Height == 0 {
		c.Height = 320
	}
	return &c, nil
}

// A legendItem is one name of the legend. A line without markers must not get one there.
type legendItem struct {
	Name      string          `json:"name"`
	ItemStyle *opts.ItemStyle `json:"itemStyle,omitempty"`
}

// legendItems names each series once, in the order of drawing; one without a name is left out.
func legendItems(series charts.MultiSeries) []legendItem {
	items := []legendItem{}
	for _, s := range series {
		if s.Name == "" || slices.ContainsFunc(items, func(item legendItem) bool { return item.Name == s.Name }) {
			continue
		}
		item := legendItem{Name: s.Name}
		if s.Type == "line" && s.Symbol == "none" && !hasMarks(series, s.Name) {
			item.ItemStyle = &opts.ItemStyle{Opacity: opts.Float(0)}
		}
		items = append(items, item)
	}
	return items
}

// hasMarks reports whether markers of their own are drawn over a line.
func hasMarks(series charts.MultiSeries, name string) bool {
	return slices.ContainsFunc(series, func(s charts.SingleSeries) bool { return s.Name == name && s.Type == "scatter" })
}

// percentAxis is a vertical or horizontal axis of rates from 0.
func percentAxis(name string) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, Min: 0, NameLocation: "end",
		AxisLabel: &opts.AxisLabel{Formatter: "{value} %", Color: grey, HideOverlap: opts.Bool(true)},
		SplitLine: &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: faint}}}
}

// monthAxis is a horizontal axis of periods.
func monthAxis() opts.XAxis {
	return opts.XAxis{Type: "category", AxisLabel: &opts.AxisLabel{Color: grey, HideOverlap: opts.Bool(true)},
		AxisTick: &opts.AxisTick{AlignWithLabel: opts.Bool(true)}}
}

// scaled turns a rate into the number that an axis of percent shows; nil stays a gap.
func scaled(rate *float64, by float64) any {
	if rate == nil {
		return nil
	}
	return rounded(*rate * by)
}

// stroke is a line without markers.
func stroke(color, dash string, width float32) []charts.SeriesOpts {
	return []charts.SeriesOpts{
		charts.WithLineStyleOpts(opts.LineStyle{Color: color, Type: dash, Width: width}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: color}),
		charts.WithLineChartOpts(opts.LineChart{Symbol: "none", ShowSymbol: opts.Bool(false)}),
	}
}
