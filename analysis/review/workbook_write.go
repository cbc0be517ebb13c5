package review

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// write writes a leaf; where a sheet is full, its table goes on in a next one.
func (b *book) write(l *leaf) error {
	l.lay()
	row, part := 0, 1
	for {
		name := l.name
		if part > 1 {
			name = fmt.Sprintf("%s %d", l.name, part)
		}
		next, err := b.writePart(l, name, row)
		if err != nil {
			return err
		}
		rows := l.grids[0].rows
		if len(l.grids) == 1 {
			rows = next - row
		}
		b.written = append(b.written, writtenSheet{name, l.about, rows})
		if next == l.grids[0].rows || len(l.grids) > 1 {
			return nil
		}
		row, part = next, part+1
	}
}

// A sheetWriter writes one sheet from top to bottom.
type sheetWriter struct {
	*book
	leaf   *leaf
	name   string
	stream *excelize.StreamWriter
	widths []float64
	row    int // last row written
}

// writePart writes one sheet of a leaf, from row start of its table on, and says where the next has to go on.
func (b *book) writePart(l *leaf, name string, start int) (int, error) {
	if _, err := b.file.NewSheet(name); err != nil {
		return 0, err
	}
	if err := b.prepareSheet(name, l.scale == 0); err != nil {
		return 0, err
	}
	stream, err := b.file.NewStreamWriter(name)
	if err != nil {
		return 0, err
	}
	w := &sheetWriter{book: b, leaf: l, name: name, stream: stream, widths: l.fit}
	if err := w.top(); err != nil {
		return 0, err
	}
	next := start
	for _, g := range l.grids {
		from := 0
		if len(l.grids) == 1 {
			from = start
		}
		if next, err = w.table(g, from); err != nil {
			return 0, err
		}
	}
	if start == 0 {
		if err := w.drawAndName(); err != nil {
			return 0, err
		}
	}
	n := l.grids[0].rows // of the first table that stand here
	if len(l.grids) == 1 {
		n = next - start
	}
	if err := w.finish(n); err != nil {
		return 0, err
	}
	return next, stream.Flush()
}

// top sets the columns and writes title and sentences; the first heading stays in sight, and so do the first columns.
func (w *sheetWriter) top() error {
	for i, width := range w.widths {
		if err := w.stream.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	corner, err := excelize.CoordinatesToCellName(w.leaf.keep+1, w.leaf.heads()+1)
	if err != nil {
		return err
	}
	panes := &excelize.Panes{Freeze: true, XSplit: w.leaf.keep, YSplit: w.leaf.heads(), TopLeftCell: corner, ActivePane: "bottomRight"}
	if w.leaf.keep == 0 {
		panes.ActivePane = "bottomLeft"
	}
	if err := w.stream.SetPanes(panes); err != nil {
		return err
	}
	if err := w.values(1, []any{w.leaf.title}, asTitle, excelize.RowOpts{Height: 24}); err != nil {
		return err
	}
	for i, said := range w.leaf.says {
		if err := w.says(i+2, said); err != nil {
			return err
		}
	}
	return nil
}

// table writes a table from row start on, as far as the sheet goes.
func (w *sheetWriter) table(g *grid, start int) (int, error) {
	if g.caption != "" {
		if err := w.values(g.first-2, []any{g.caption}, asCaption); err != nil {
			return 0, err
		}
	}
	if err := w.headings(g); err != nil {
		return 0, err
	}
	if g.rows == 0 {
		return 0, w.values(g.first, []any{"none"}, asText)
	}
	next := start
	for ; next < g.rows && w.row < w.limit; next++ {
		values := g.row(next)
		cells := make([]any, len(values))
		for i, value := range values {
			var err error
			if cells[i], err = w.cell(g, next, g.columns[i].as, value); err != nil {
				return 0, err
			}
		}
		w.row++
		if err := w.stream.SetRow(fmt.Sprintf("A%d", w.row), cells, w.leaf.rowHeight(g, values)...); err != nil {
			return 0, err
		}
	}
	return next, nil
}
