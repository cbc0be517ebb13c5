package workbook

import (
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
)

const (
	chartWide, chartHigh = 640, 320 // pixels
	chartColumns         = 10       // of default width, that a chart covers
	chartRows            = 22       // of default height, with the gap to the next chart: some programs draw rows lower
	mostCharted          = 30       // places that a chart can name
)

// place is the column and row of chart i. Wide tables have their charts below, two side by side.
func (s *sheet) place(i int) (column, row int) {
	switch {
	case !s.Below:
		widest := 0
		for _, g := range s.grids {
			widest = max(widest, len(g.columns))
		}
		return widest + 2, s.heads() + i*chartRows
	case i%2 == 0:
		return 1, s.end() + 2 + i/2*chartRows
	}
	return s.columnsWithin(chartWide) + 2, s.end() + 2 + i/2*chartRows
}

// chartsReach is the last column and row that a chart covers; 0 without one.
func (s *sheet) chartsReach() (column, row int) {
	for i := range s.charts {
		left, top := s.place(i)
		row = max(row, top+chartRows-1)
		switch {
		case !s.Below:
			column = left + chartColumns - 1
		case i == 1:
			column = s.columnsWithin(2*chartWide + 100)
		}
	}
	return column, row
}

// native is a drawing as a chart of the workbook's own cells; nil where they are not in it or there are none. A place
// without a value stays empty.
func (b *book) native(d exhibit.Drawing) (*excelize.Chart, error) {
	g, from := b.placed(d.Rows)
	rows := d.Rows.Rows.Len
	if d.First > 0 {
		rows = min(rows, d.First)
	}
	places, values := d.Across, d.Up
	if d.Up.Scale == exhibit.Names {
		places, values = d.Up, d.Across
		rows = min(rows, mostCharted)
	}
	if g == nil || rows == 0 {
		return nil, nil
	}
	span := func(column string) string { return g.span(column, from, from+rows-1) }
	font := excelize.Font{Size: 9, Color: exhibit.Ink}
	made := &excelize.Chart{
		Type: kindOf(d, places), ShowBlanksAs: "gap",
		Dimension: excelize.ChartDimension{Width: chartWide, Height: chartHigh},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: d.Title, Font: &excelize.Font{Bold: true, Size: 11, Color: exhibit.Ink}}}},
		Legend:    excelize.ChartLegend{Position: "bottom"},
		Format:    excelize.GraphicOptions{AltText: d.Alt, Name: d.Title},
		XAxis:     excelize.ChartAxis{Font: font, TickLabelPosition: excelize.ChartTickLabelLow},
		YAxis:     excelize.ChartAxis{Font: font, MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: axisFormat(values)}},
		Border:    excelize.LineOptions{Fill: solidFill(exhibit.Faint), Width: 0.75},
	}
	zero, never := 0.0, false
	made.VaryColors = &never
	if values.Scale == exhibit.Log {
		made.YAxis.LogBase = 10
	} else if values.Scale == exhibit.Even && values.Type != exhibit.Level {
		made.YAxis.Minimum = &zero
	}
	if places.Max > 0 {
		made.XAxis.Minimum, made.XAxis.Maximum, made.XAxis.MajorUnit = &zero, &places.Max, 10
		made.XAxis.Title.Paragraph = []excelize.RichTextRun{{Text: places.Name, Font: &font}}
	}
	if g.Columns[g.Column(places.Column)].Type == exhibit.Month {
		made.XAxis.NumFmt = excelize.ChartNumFmt{CustomNumFmt: "yyyy-mm"}
		made.XAxis.Alignment.TextRotation = 90
	}
	for _, one := range d.Series {
		made.Series = append(made.Series, seriesOf(g, one, span(places.Column), span)...)
		made.XAxis.HighLowLines = made.XAxis.HighLowLines || one.To != ""
	}
	if len(made.Series) == 1 {
		made.Legend.Position = "none"
	}
	return made, nil
}

// kindOf is the kind of chart that shows all series of a drawing.
func kindOf(d exhibit.Drawing, places exhibit.Axis) excelize.ChartType {
	for _, one := range d.Series {
		switch style := one.Look.Style(); {
		case style.Stack:
			return excelize.ColStacked
		case style.Bar:
			return excelize.Col
		}
	}
	if places.Scale != exhibit.Names {
		return excelize.Scatter
	}
	return excelize.Line
}

func axisFormat(values exhibit.Axis) string {
	switch values.Type {
	case exhibit.Share:
		return "0%"
	case exhibit.PerUnit, exhibit.Ratio, exhibit.Level:
		return "0.00"
	}
	return "0"
}

// seriesOf draws a series of the sheet's own columns; a span is both of its ends, which the chart joins.
func seriesOf(g *grid, one exhibit.Series, categories string, span func(string) string) []excelize.ChartSeries {
	if one.Rows != nil {
		return nil
	}
	columns := []string{one.Column}
	if one.To != "" {
		columns = append(columns, one.To)
	}
	var all []excelize.ChartSeries
	for _, column := range columns {
		style := one.Look.Style()
		s := excelize.ChartSeries{Name: g.at(column, -1), Categories: categories, Values: span(column), Fill: solidFill(style.Color),
			Line:   excelize.LineOptions{Type: excelize.LineSolid, Width: max(style.Width, 0.75), Dash: dashes[style.Dash], Fill: solidFill(style.Color)},
			Marker: excelize.ChartMarker{Symbol: "none"}}
		if one.To != "" {
			style.Width, style.Shape, style.Size = 0, "dash", 7
		}
		if style.Width == 0 {
			s.Line.Type = excelize.LineNone
		}
		if style.Shape != exhibit.NoShape {
			inside := style.Color
			if style.Hollow {
				inside = "#ffffff"
			}
			s.Marker = excelize.ChartMarker{Symbol: string(style.Shape), Size: max(5, style.Size/2), Fill: solidFill(inside),
				Border: excelize.LineOptions{Fill: solidFill(style.Color), Width: 1.25}}
		}
		all = append(all, s)
	}
	return all
}

var dashes = map[exhibit.Dash]excelize.LineDashType{exhibit.Solid: excelize.LineDashSolid, exhibit.Dashed: excelize.LineDashDash,
	exhibit.Dotted: excelize.LineDashDot}
