// Package drawing turns the drawing of an exhibit into what the charting script of a page reads.
package drawing

import (
	"encoding/json"
	"html/template"
	"slices"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"plumbline/analysis/exhibit"
)

// A Chart is a drawing for the page's script.
type Chart struct {
	ID     string // from the page's and the drawing's name, so that it is the same every time
	Title  string
	Alt    string
	Height int // px
	Option template.JS
}

// Draw makes the chart of a drawing whose rows are those of a table, unless it has its own.
func Draw(id string, d exhibit.Drawing, table *exhibit.Table) (Chart, error) {
	if d.Rows != nil {
		table = d.Rows
	}
	s := sketch{Drawing: d, table: table, rows: table.Rows.Len}
	if d.First > 0 {
		s.rows = min(s.rows, d.First)
	}
	made := Chart{ID: id, Title: d.Title, Alt: d.Alt, Height: s.height()}
	base := charts.NewLine()
	base.SetGlobalOptions(s.frame(id)...)
	if s.Across.Scale == exhibit.Names {
		base.SetXAxis(s.names())
	}
	base.Validate()
	parts := base.JSON()
	series := s.series()
	parts["series"] = series
	parts["legend"] = s.legend(series)
	option, err := json.Marshal(parts)
	// Everything in the option is ours or was put there as a JSON string, in which the characters that could end a script
	// are escaped.
	made.Option = template.JS(option)
	return made, err
}

// A sketch is a drawing while it is made.
type sketch struct {
	exhibit.Drawing
	table *exhibit.Table
	rows  int
}

// lies reports whether the places of the drawing lie one below the other.
func (s sketch) lies() bool { return s.Up.Scale == exhibit.Names }

// places is the axis that gives the places, values the other.
func (s sketch) places() exhibit.Axis {
	if s.lies() {
		return s.Up
	}
	return s.Across
}

func (s sketch) values() exhibit.Axis {
	if s.lies() {
		return s.Across
	}
	return s.Up
}

// stacks reports whether any bars stand on each other, so that they need patterns to be told apart in print.
func (s sketch) stacks() bool {
	return slices.ContainsFunc(s.Series, func(one exhibit.Series) bool { return one.Look.Style().Stack })
}

// frame is what all charts start from: no animation, so that a printed page is complete, and room for labels.
func (s sketch) frame(id string) []charts.GlobalOpts {
	room := opts.Grid{Left: "8", Top: "56", Right: "24", Bottom: "28", ContainLabel: opts.Bool(true)}
	if s.Across.Name != "" {
		room.Bottom = "40"
	}
	if s.Mini {
		room = opts.Grid{Left: "4", Top: "12", Right: "12", Bottom: "10", ContainLabel: opts.Bool(true)}
	} else if !s.hasLegend() {
		room.Top, room.Right = "16", "40"
	}
	frame := []charts.GlobalOpts{
		charts.WithInitializationOpts(opts.Initialization{ChartID: id, AssetsHost: "assets/", Renderer: "svg"}),
		charts.WithAnimation(false),
		charts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "item", Formatter: "{b}"}),
		charts.WithColorsOpts(opts.Colors{exhibit.Blue, exhibit.Rust, exhibit.Purple, exhibit.Green, exhibit.Grey, exhibit.Ink}),
		charts.WithGridOpts(room), charts.WithXAxisOpts(s.across()), charts.WithYAxisOpts(s.up()),
	}
	if s.stacks() {
		frame = append(frame, charts.WithAriaOpts(&opts.Aria{Enabled: opts.Bool(true), Decal: &opts.AriaDecal{Show: opts.Bool(true)}}))
	}
	return frame
}

func (s sketch) hasLegend() bool {
	return !s.Mini && slices.ContainsFunc(s.Series, func(one exhibit.Series) bool { return one.Name != "" })
}

// height is what the rows of a lying drawing need, or what is usual.
func (s sketch) height() int {
	switch {
	case s.Mini:
		return 150
	case !s.lies():
		return 320
	}
	high := 100
	for i := range s.rows {
		high += 20 + 14*lines(s.place(i).(string))
	}
	return high
}

// labelWidth is the room for names beside a lying drawing, in px; a longer name runs over several lines.
const labelWidth = 150

// lines is about how many lines a name takes.
func lines(name string) int { return 1 + len([]rune(name))*7/labelWidth }
