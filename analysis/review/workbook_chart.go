package review

import (
	"github.com/xuri/excelize/v2"
)

// A bookChart is a native chart over columns of tables.
type bookChart struct {
	kind       excelize.ChartType
	title      string
	alt        string
	categories string
	format     string // of the values
	dates      bool   // the categories are months
	days       int    // the categories are days up to this; 0: they are names or months
	intervals  bool   // lines from the lowest to the highest of a place
	lines      []chartLine
}

// A chartLine is one series: its name's cell, its values and how it is drawn.
type chartLine struct {
	name, values string
	color        string
	dash         excelize.LineDashType
	marker       string // empty: none
	hollow       bool
	bare         bool // marks without a line
}

const (
	chartWide, chartHigh = 640, 320 // pixels
	chartColumns         = 10       // of default width, that a chart covers
	chartRows            = 22       // of default height, with the gap to the next chart: some programs draw rows lower
)

// place is the column and row of chart i. Wide tables have their charts below, two side by side.
func (l *leaf) place(i int) (column, row int) {
	switch {
	case !l.below:
		return len(l.columnsOf()) + 2, l.heads() + i*chartRows
	case i%2 == 0:
		return 1, l.end() + 2 + i/2*chartRows
	}
	return l.columnsWithin(chartWide) + 2, l.end() + 2 + i/2*chartRows
}

// columnsWithin is how many columns it takes to be as wide as some pixels.
func (l *leaf) columnsWithin(pixels int) int {
	column := 0
	for ; pixels > 0; column++ {
		width := defaultWidth
		if column < len(l.fit) {
			width = l.fit[column]
		}
		pixels -= int(width*7) + 5
	}
	return column
}

// columnsOf is the widest table's columns.
func (l *leaf) columnsOf() []gridColumn {
	var widest []gridColumn
	for _, g := range l.grids {
		if len(g.columns) > len(widest) {
			widest = g.columns
		}
	}
	return widest
}

// chartsReach is the last column and row that a chart covers; 0 without one.
func (w *sheetWriter) chartsReach() (column, row int) {
	for i := range w.leaf.charts {
		left, top := w.leaf.place(i)
		row = max(row, top+chartRows-1)
		switch {
		case !w.leaf.below:
			column = left + chartColumns - 1
		case i == 1:
			column = w.leaf.columnsWithin(2*chartWide + 100)
		}
	}
	return column, row
}

// drawAndName adds the charts of the leaf, and the names of its cells.
func (w *sheetWriter) drawAndName() error {
	for _, named := range w.leaf.names {
		if err := w.file.SetDefinedName(&excelize.DefinedName{Name: named.name, RefersTo: named.cell}); err != nil {
			return err
		}
	}
	for i, c := range w.leaf.charts {
		column, row := w.leaf.place(i)
		at, err := excelize.CoordinatesToCellName(column, row)
		if err != nil {
			return err
		}
		if err := w.file.AddChart(w.name, at, c.native()); err != nil {
			return err
		}
	}
	return nil
}

// native is the chart as the library wants it. A place without a value stays empty.
func (c bookChart) native() *excelize.Chart {
	font := excelize.Font{Size: 9, Color: ink}
	made := &excelize.Chart{
		Type: c.kind, ShowBlanksAs: "gap",
		Dimension: excelize.ChartDimension{Width: chartWide, Height: chartHigh},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: c.title, Font: &excelize.Font{Bold: true, Size: 11, Color: ink}}}},
		Legend:    excelize.ChartLegend{Position: "bottom"},
		Format:    excelize.GraphicOptions{AltText: c.alt, Name: c.title},
		XAxis:     excelize.ChartAxis{Font: font, HighLowLines: c.intervals, TickLabelPosition: excelize.ChartTickLabelLow},
		YAxis:     excelize.ChartAxis{Font: font, MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: c.format}},
		Border:    excelize.LineOptions{Fill: solidFill(faint), Width: 0.75},
	}
	zero, never := 0.0, false
	made.YAxis.Minimum, made.VaryColors = &zero, &never
	if len(c.lines) == 1 {
		made.Legend.Position = "none"
	}
	if c.days > 0 {
		last := float64(c.days)
		made.XAxis.Minimum, made.XAxis.Maximum, made.XAxis.MajorUnit = &zero, &last, 10
		made.XAxis.Title.Paragraph = []excelize.RichTextRun{{Text: "days since the job was closed", Font: &font}}
	}
	if c.dates {
		made.XAxis.NumFmt = excelize.ChartNumFmt{CustomNumFmt: "yyyy-mm"}
		made.XAxis.Alignment.TextRotation = 90
	}
	for _, line := range c.lines {
		made.Series = append(made.Series, line.series(c.categories))
	}
	return made
}

func solidFill(color string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}}
}

func (l chartLine) series(categories string) excelize.ChartSeries {
	s := excelize.ChartSeries{Name: l.name, Categories: categories, Values: l.values, Fill: solidFill(l.color),
		Line:   excelize.LineOptions{Width: 1.75, Dash: l.dash, Fill: solidFill(l.color)},
		Marker: excelize.ChartMarker{Symbol: "none"}}
	s.Line.Type = excelize.LineSolid
	if l.bare {
		s.Line.Type = excelize.LineNone
	}
	if l.marker != "" {
		inside := l.color
		if l.hollow {
			inside = "#ffffff"
		}
		s.Marker = excelize.ChartMarker{Symbol: l.marker, Size: 7, Fill: solidFill(inside),
			Border: excelize.LineOptions{Fill: solidFill(l.color), Width: 1.25}}
	}
	return s
}
