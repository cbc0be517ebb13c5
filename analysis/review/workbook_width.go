package review

import (
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

const (
	defaultWidth  = 9.14 // of a column that nobody has set, in characters
	widestText    = 46
	longTextWidth = 40
	tallestRow    = 400.0 // points; a row can have 409
)

// widths are what the columns of a leaf need for their values and headings, in characters.
func (l *leaf) widths() []float64 {
	var widths []float64
	for _, g := range l.grids {
		for i, column := range g.columns {
			if i == len(widths) {
				widths = append(widths, 6)
			}
			widths[i] = max(widths[i], float64(headingWidth(column.name)), float64(formWidths[column.as]+2))
			if column.as == asLongText {
				widths[i] = max(longTextWidth, float64(l.prose))
			}
		}
		for k := 0; k < g.rows; k++ {
			for i, value := range g.row(k) {
				if g.columns[i].as == asText || g.columns[i].as == asLink {
					widths[i] = max(widths[i], float64(min(textWidth(value)+3, widestText)))
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
func (l *leaf) headingHeight(g *grid) float64 {
	lines := 1
	for i, column := range g.columns {
		lines = max(lines, 1+(utf8.RuneCountInString(column.name)-1)/max(int(l.fit[i])-3, 1))
	}
	return 14*float64(lines) + 4
}

// textWidth is the longest line of a text.
func textWidth(value any) int {
	if t, ok := value.(toned); ok {
		value = t.value
	}
	if f, ok := value.(live); ok {
		value = f.value
	}
	text, ok := pointedAt(value).(string)
	if !ok {
		return 0
	}
	longest := 0
	for line := range strings.Lines(text) {
		longest = max(longest, utf8.RuneCountInString(line))
	}
	return longest
}

// rowHeight makes room for long texts that run over several lines; not every program does so by itself.
func (l *leaf) rowHeight(g *grid, values []any) []excelize.RowOpts {
	lines := 1
	for i, value := range values {
		text, ok := pointedAt(value).(string)
		if !ok || g.columns[i].as != asLongText {
			continue
		}
		of := strings.Count(text, "\n") + 1
		lines = max(lines, of+utf8.RuneCountInString(text)/int(l.fit[i]))
	}
	if lines == 1 {
		return nil
	}
	return []excelize.RowOpts{{Height: min(12.75*float64(lines)+2, tallestRow)}}
}
