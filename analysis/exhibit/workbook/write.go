package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/xlsx"
)

// write writes a sheet; where it is full, its table goes on in a next one.
func (b *book) write(s *sheet) error {
	row, part := 0, 1
	for {
		name := s.name
		if part > 1 {
			name = fmt.Sprintf("%s %d", s.name, part)
		}
		next, err := b.writePart(s, name, row)
		if err != nil {
			return err
		}
		rows := s.grids[0].Rows.Len
		if len(s.grids) == 1 {
			rows = next - row
		}
		b.written = append(b.written, writtenSheet{name, s.About, rows})
		if next == s.grids[0].Rows.Len || len(s.grids) > 1 {
			return nil
		}
		row, part = next, part+1
	}
}

// A writer writes one sheet from top to bottom.
type writer struct {
	*book
	sheet  *sheet
	name   string
	stream *excelize.StreamWriter
	row    int // last row written
	links  int
}

// writePart writes one sheet, from row start of its table on, and says where the next has to go on.
func (b *book) writePart(s *sheet, name string, start int) (int, error) {
	if _, err := b.file.NewSheet(name); err != nil {
		return 0, err
	}
	if err := b.prepareSheet(name, s.Scale == 0); err != nil {
		return 0, err
	}
	stream, err := b.file.NewStreamWriter(name)
	if err != nil {
		return 0, err
	}
	w := &writer{book: b, sheet: s, name: name, stream: stream}
	if err := w.top(); err != nil {
		return 0, err
	}
	next := start
	for _, g := range s.grids {
		from := 0
		if len(s.grids) == 1 {
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
	n := s.grids[0].Rows.Len // of the first table that stand here
	if len(s.grids) == 1 {
		n = next - start
	}
	if err := w.finish(n); err != nil {
		return 0, err
	}
	return next, stream.Flush()
}

// top sets the columns and writes title and words; the first heading stays in sight, and so do the first columns.
func (w *writer) top() error {
	for i, width := range w.sheet.fit {
		if err := w.stream.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	keep := w.sheet.Keep
	corner, err := excelize.CoordinatesToCellName(keep+1, w.sheet.heads()+1)
	if err != nil {
		return err
	}
	panes := &excelize.Panes{Freeze: true, XSplit: keep, YSplit: w.sheet.heads(), TopLeftCell: corner, ActivePane: "bottomRight"}
	if keep == 0 {
		panes.ActivePane = "bottomLeft"
	}
	if err := w.stream.SetPanes(panes); err != nil {
		return err
	}
	if err := w.values(1, []any{w.sheet.title}, asTitle, excelize.RowOpts{Height: 24}); err != nil {
		return err
	}
	for i, said := range w.sheet.words {
		if err := w.says(i+2, said); err != nil {
			return err
		}
	}
	return nil
}

// table writes a table from row start on, as far as the sheet goes.
func (w *writer) table(g *grid, start int) (int, error) {
	if g.caption != "" {
		if err := w.values(g.first-2, []any{g.caption}, asCaption); err != nil {
			return 0, err
		}
	}
	if err := w.headings(g); err != nil {
		return 0, err
	}
	if g.Rows.Len == 0 {
		return 0, w.values(g.first, []any{"none"}, form(exhibit.Text))
	}
	next := start
	for ; next < g.Rows.Len && w.row < w.Limit; next++ {
		if err := w.record(g, next); err != nil {
			return 0, err
		}
	}
	return next, nil
}

// record writes row i of a table.
func (w *writer) record(g *grid, i int) error {
	values := g.Rows.At(i)
	cells := make([]any, len(g.columns))
	w.row++
	for k, at := range g.columns {
		var err error
		if cells[k], err = w.cell(g, i, g.Columns[at], values[at]); err != nil {
			return err
		}
		if err := w.lead(k, exhibit.CellOf(values[at]).Link); err != nil {
			return err
		}
	}
	return w.stream.SetRow(fmt.Sprintf("A%d", w.row), cells, w.sheet.rowHeight(g, values)...)
}

// mostLinks is how many links a sheet may hold. Source: ECMA-376; spreadsheet programs' own limit is 65,530.
const mostLinks = 60_000

// lead makes a cell of the row that is being written lead to a page beside the workbook.
func (w *writer) lead(k int, link string) error {
	if link == "" || link[0] == '#' || w.links == mostLinks {
		return nil
	}
	w.links++
	at, err := excelize.CoordinatesToCellName(k+1, w.row)
	if err != nil {
		return err
	}
	return w.file.SetCellHyperLink(w.name, at, link, "External")
}

// values writes a row of values of one form.
func (w *writer) values(row int, values []any, as form, opts ...excelize.RowOpts) error {
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
func (w *writer) headings(g *grid) error {
	cells := make([]any, len(g.columns))
	for k := range g.columns {
		as := asHeading
		if g.form(k).IsNumber() {
			as = asNumberHeading
		}
		id, err := w.style(appearance{as: as})
		if err != nil {
			return err
		}
		cells[k] = excelize.Cell{StyleID: id, Value: g.heading(k)}
	}
	w.row = g.first - 1
	return w.stream.SetRow(fmt.Sprintf("A%d", w.row), cells, excelize.RowOpts{Height: w.sheet.headingHeight(g)})
}

// saysWidth is how wide a sentence runs over the columns, in characters.
const saysWidth = 110

// says writes a sentence over as many columns as it takes, on as many lines as it needs.
func (w *writer) says(row int, said string) error {
	columns, width := w.sheet.saysColumns()
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
