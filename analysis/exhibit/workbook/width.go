package workbook

import (
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
)

const (
	defaultWidth  = 9.14 // of a column that nobody has set, in characters
	widestText    = 46
	longTextWidth = 40
	tallestRow    = 400.0 // points; a row can have 409
)

// widths are what the columns of a sheet need for their values and headings, in characters.
func (s *sheet) widths() []float64 {
	var widths []float64
	for _, g := range s.grids {
		for k := range g.columns {
			if k == len(widths) {
				widths = append(widths, 6)
			}
			widths[k] = max(widths[k], float64(headingWidth(g.heading(k))), float64(formWidths[g.form(k)]+2))
			if g.form(k) == exhibit.Prose {
				widths[k] = max(longTextWidth, float64(s.Prose))
			}
		}
		for i := range g.Rows.Len {
			values := g.Rows.At(i)
			for k, at := range g.columns {
				if text, ok := written(g.Columns[at], exhibit.CellOf(values[at])).(string); ok && g.form(k) != exhibit.Prose {
					widths[k] = max(widths[k], float64(min(textWidth(text)+3, widestText)))
				}
			}
		}
	}
	return widths
}

// headingWidth lets a heading run over two lines, beside the arrow of the filter.
func headingWidth(name string) int {
	longest := 0
	for _, word := range strings.Fields(name) {
		longest = max(longest, utf8.RuneCountInString(word))
	}
	return max(longest, (utf8.RuneCountInString(name)+2)/2) + 3
}

// headingHeight is for the lines that the headings of a table take.
func (s *sheet) headingHeight(g *grid) float64 {
	lines := 1
	for k := range g.columns {
		lines = max(lines, 1+(utf8.RuneCountInString(g.heading(k))-1)/max(int(s.fit[k])-3, 1))
	}
	return 14*float64(lines) + 4
}

// textWidth is the longest line of a text.
func textWidth(text string) int {
	longest := 0
	for line := range strings.Lines(text) {
		longest = max(longest, utf8.RuneCountInString(line))
	}
	return longest
}

// rowHeight makes room for long texts that run over several lines; not every program does so by itself.
func (s *sheet) rowHeight(g *grid, values []any) []excelize.RowOpts {
	lines := 1
	for k, at := range g.columns {
		if g.form(k) != exhibit.Prose {
			continue
		}
		if text, ok := exhibit.Settle(values[at]).(string); ok {
			lines = max(lines, strings.Count(text, "\n")+1+utf8.RuneCountInString(text)/int(s.fit[k]))
		}
	}
	if lines == 1 {
		return nil
	}
	return []excelize.RowOpts{{Height: min(12.75*float64(lines)+2, tallestRow)}}
}

func (s *sheet) saysColumns() (columns, width int) {
	for columns == 0 || width < saysWidth {
		width += int(s.columnWidth(columns))
		columns++
	}
	return columns, width
}

func (s *sheet) columnWidth(i int) float64 {
	if i < len(s.fit) {
		return s.fit[i]
	}
	return defaultWidth
}

// columnsWithin is how many columns it takes to be as wide as some pixels.
func (s *sheet) columnsWithin(pixels int) int {
	column := 0
	for ; pixels > 0; column++ {
		pixels -= int(s.columnWidth(column)*7) + 5
	}
	return column
}
