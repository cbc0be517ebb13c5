package review

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/xlsx"
)

// saysWidth is how wide a sentence runs over the columns, in characters.
const saysWidth = 110

// says writes a sentence over as many columns as it takes, on as many lines as it needs.
func (w *sheetWriter) says(row int, said string) error {
	columns, width := w.saysColumns()
	last, err := excelize.CoordinatesToCellName(columns, row)
	if err != nil {
		return err
	}
	lines := 1 + len([]rune(said))*10/(width*11)
	if err := w.values(row, []any{said}, asSays, excelize.RowOpts{Height: float64(lines)*13.5 + 2}); err != nil {
		return err
	}
	return w.stream.MergeCell(fmt.Sprintf("A%d", row), last)
}

func (w *sheetWriter) saysColumns() (columns, width int) {
	for columns == 0 || width < saysWidth {
		width += int(w.columnWidth(columns))
		columns++
	}
	return columns, width
}

func (w *sheetWriter) columnWidth(i int) float64 {
	if i < len(w.widths) {
		return w.widths[i]
	}
	return defaultWidth
}

// values writes a row of values of one form.
func (w *sheetWriter) values(row int, values []any, as form, opts ...excelize.RowOpts) error {
	id, err := w.style(appearance{as: as})
	if err != nil {
		return err
	}
	cells := make([]any, len(values))
	for i, value := range values {
		if text, ok := value.(string); ok {
			value = xlsx.Text(text, cutMark)
		}
		cells[i] = excelize.Cell{StyleID: id, Value: value}
	}
	w.row = row
	return w.stream.SetRow(fmt.Sprintf("A%d", row), cells, opts...)
}

// headings stand over their columns: to the right over numbers.
func (w *sheetWriter) headings(g *grid) error {
	cells := make([]any, len(g.columns))
	for i, column := range g.columns {
		as := asHeading
		if column.as.isNumber() {
			as = asNumberHeading
		}
		id, err := w.style(appearance{as: as})
		if err != nil {
			return err
		}
		cells[i] = excelize.Cell{StyleID: id, Value: column.name}
	}
	w.row = g.first - 1
	return w.stream.SetRow(fmt.Sprintf("A%d", w.row), cells, excelize.RowOpts{Height: w.leaf.headingHeight(g)})
}
