package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
)

const coverSheet = "Cover"

// coverWidths are those of its three columns.
var coverWidths = []float64{24, 12, 78}

// cover writes the first sheet last, when it is known what the others hold.
func (b *book) cover() error {
	if err := b.prepareSheet(coverSheet, true); err != nil {
		return err
	}
	stream, err := b.file.NewStreamWriter(coverSheet)
	if err != nil {
		return err
	}
	w := &writer{book: b, sheet: &sheet{fit: coverWidths}, name: coverSheet, stream: stream}
	for i, width := range coverWidths {
		if err := stream.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	if err := w.values(1, []any{b.Title}, asTitle, excelize.RowOpts{Height: 26}); err != nil {
		return err
	}
	for i, line := range b.Cover {
		if err := w.line(i+3, line); err != nil {
			return err
		}
	}
	if err := w.contents(len(b.Cover) + 4); err != nil {
		return err
	}
	if err := b.printing(coverSheet, len(coverWidths), w.row, 1, 1); err != nil {
		return err
	}
	return stream.Flush() // the first sheet is the active one
}

func (w *writer) line(row int, line Line) error {
	label, err := w.style(appearance{as: asLabel})
	if err != nil {
		return err
	}
	value, err := w.cell(nil, 0, exhibit.Column{Type: line.Type}, line.Value)
	if err != nil {
		return err
	}
	opts := excelize.RowOpts{Height: 14}
	if text, ok := line.Value.(string); ok {
		opts.Height = 14 * float64(1+len([]rune(text))/98)
	}
	if made, ok := value.(excelize.Cell); ok && line.Type == exhibit.Count {
		made.StyleID, err = w.style(appearance{as: asCoverCount})
		value = made
	}
	if err != nil {
		return err
	}
	w.row = row
	if err := w.stream.SetRow(fmt.Sprintf("A%d", row), []any{excelize.Cell{StyleID: label, Value: line.Label}, value}, opts); err != nil {
		return err
	}
	return w.stream.MergeCell(fmt.Sprintf("B%d", row), fmt.Sprintf("C%d", row))
}

// contents lists the sheets, each with a link to it.
func (w *writer) contents(row int) error {
	if err := w.values(row, []any{"Sheet", "Rows", "What is on it"}, asHeading); err != nil {
		return err
	}
	link, err := w.style(appearance{as: asLink})
	if err != nil {
		return err
	}
	count, err := w.style(appearance{as: asCoverCount})
	if err != nil {
		return err
	}
	text, err := w.style(appearance{})
	if err != nil {
		return err
	}
	for _, one := range w.written {
		w.row++
		at := fmt.Sprintf("A%d", w.row)
		err := w.stream.SetRow(at, []any{excelize.Cell{StyleID: link, Value: one.name}, excelize.Cell{StyleID: count, Value: one.rows},
			excelize.Cell{StyleID: text, Value: one.about}})
		if err != nil {
			return err
		}
		if err := w.file.SetCellHyperLink(coverSheet, at, quoted(one.name)+"!A1", "Location"); err != nil {
			return err
		}
	}
	return nil
}
