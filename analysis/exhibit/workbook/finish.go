package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
)

// finish sets what a sheet, its first table having n rows, is filtered by and how it prints.
func (w *writer) finish(n int) error {
	s := w.sheet
	first := s.grids[0]
	if !first.Ordered && n > 0 && s.Scale == 0 {
		last, err := excelize.ColumnNumberToName(len(first.columns))
		if err != nil {
			return err
		}
		if err := w.file.AutoFilter(w.name, fmt.Sprintf("A%d:%s%d", s.heads(), last, s.heads()+n), nil); err != nil {
			return err
		}
	}
	columns, _ := s.saysColumns()
	columns, rows := max(columns, len(s.fit)), w.row
	right, bottom := s.chartsReach()
	columns, rows = max(columns, right), max(rows, bottom)
	wide := s.pagesWide(columns)
	if err := w.printing(w.name, columns, rows, wide, 0); err != nil {
		return err
	}
	if err := w.breakPages(); err != nil {
		return err
	}
	if s.Scale > 0 {
		return nil // pages of charts need no heading
	}
	titles := fmt.Sprintf("%s!$%d:$%d", quoted(w.name), s.heads(), s.heads())
	if wide > 1 && s.Keep > 0 {
		last, err := excelize.ColumnNumberToName(s.Keep)
		if err != nil {
			return err
		}
		titles = fmt.Sprintf("%s!$A:$%s,%s", quoted(w.name), last, titles)
	}
	return w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: w.name, RefersTo: titles})
}

// widestPage is how many characters still can be read across one page.
const widestPage = 300

// pagesWide is over how many pages side by side a sheet is printed; each repeats the columns that stay in sight.
func (s *sheet) pagesWide(columns int) int {
	width := 0.0
	for i := range columns {
		width += s.columnWidth(i)
	}
	return 1 + int(width/widestPage)
}

// breakPages begins a page before the second row of charts, the fourth and so on, where the sheet is not made to fit.
func (w *writer) breakPages() error {
	if w.sheet.Scale == 0 {
		return nil
	}
	size := uint(w.sheet.Scale)
	if err := w.file.SetPageLayout(w.name, &excelize.PageLayoutOptions{AdjustTo: &size}); err != nil {
		return err
	}
	for i := 2; i < len(w.sheet.charts); i += 4 {
		_, row := w.sheet.place(i)
		if err := w.stream.InsertPageBreak(fmt.Sprintf("A%d", row-1)); err != nil {
			return err
		}
	}
	return nil
}

// prepareSheet sets what has to stand before the first row: no grid, and whether it is printed to fit its
// pages.
func (b *book) prepareSheet(name string, fit bool) error {
	lines := false
	if err := b.file.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	return b.file.SetSheetView(name, 0, &excelize.ViewOptions{ShowGridLines: &lines})
}

// printing has a sheet printed on pages side by side and, where high is not 0, one below the other, with what it belongs
// to above and its page number below.
func (b *book) printing(name string, columns, rows, wide, high int) error {
	orientation := "landscape"
	err := b.file.SetPageLayout(name, &excelize.PageLayoutOptions{Orientation: &orientation, FitToWidth: &wide, FitToHeight: &high})
	if err != nil {
		return err
	}
	side, end := 0.4, 0.6
	err = b.file.SetPageMargins(name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &end, Bottom: &end})
	if err != nil {
		return err
	}
	err = b.file.SetHeaderFooter(name, &excelize.HeaderFooterOptions{OddHeader: "&L" + b.Title + "&R&A", OddFooter: "&Lplumbline&RPage &P of &N"})
	if err != nil {
		return err
	}
	last, err := excelize.ColumnNumberToName(columns)
	if err != nil {
		return err
	}
	return b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: name,
		RefersTo: fmt.Sprintf("%s!$A$1:$%s$%d", quoted(name), last, rows)})
}

// drawAndName adds the charts of the sheet, the names of its inputs and constants, and its lists to choose from.
func (w *writer) drawAndName() error {
	for _, g := range w.sheet.grids {
		for _, at := range g.columns {
			c := g.Columns[at]
			if c.Type == exhibit.Input || c.Named {
				err := w.file.SetDefinedName(&excelize.DefinedName{Name: c.Name, RefersTo: g.at(c.Name, 0)})
				if err != nil {
					return err
				}
			}
			if err := w.choices(g, c); err != nil {
				return err
			}
		}
	}
	for i, drawn := range w.sheet.charts {
		column, row := w.sheet.place(i)
		at, err := excelize.CoordinatesToCellName(column, row)
		if err != nil {
			return err
		}
		native, err := w.native(drawn)
		if err == nil && native != nil {
			err = w.file.AddChart(w.name, at, native)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// choices gives the cells of a column a list to choose from.
func (w *writer) choices(g *grid, c exhibit.Column) error {
	if len(c.Choices) == 0 || g.Rows.Len == 0 {
		return nil
	}
	letter := g.letter(c.Name)
	list := excelize.NewDataValidation(true)
	list.SetSqref(fmt.Sprintf("%s%d:%s%d", letter, g.first, letter, min(g.first+g.Rows.Len-1, w.Limit)))
	if err := list.SetDropList(c.Choices); err != nil {
		return err
	}
	return w.file.AddDataValidation(w.name, list)
}
