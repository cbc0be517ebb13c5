package review

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// finish sets what a sheet, its first table having n rows, is filtered by and how it prints.
func (w *sheetWriter) finish(n int) error {
	l := w.leaf
	if l.grids[0].sorts && n > 0 {
		last, err := excelize.ColumnNumberToName(len(l.grids[0].columns))
		if err != nil {
			return err
		}
		if err := w.file.AutoFilter(w.name, fmt.Sprintf("A%d:%s%d", l.heads(), last, l.heads()+n), nil); err != nil {
			return err
		}
	}
	columns, _ := w.saysColumns()
	columns, rows := max(columns, len(w.widths)), w.row
	right, bottom := w.chartsReach()
	columns, rows = max(columns, right), max(rows, bottom)
	wide := w.pagesWide(columns)
	if err := w.printing(w.name, columns, rows, wide, 0); err != nil {
		return err
	}
	if err := w.breakPages(); err != nil {
		return err
	}
	if l.scale > 0 {
		return nil // pages of charts need no heading
	}
	titles := fmt.Sprintf("%s!$%d:$%d", quotedSheet(w.name), l.heads(), l.heads())
	if wide > 1 && l.keep > 0 {
		last, err := excelize.ColumnNumberToName(l.keep)
		if err != nil {
			return err
		}
		titles = fmt.Sprintf("%s!$A:$%s,%s", quotedSheet(w.name), last, titles)
	}
	return w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: w.name, RefersTo: titles})
}

// widestPage is how many characters still can be read across one page.
const widestPage = 300

// pagesWide is over how many pages side by side a sheet is printed; each repeats the columns that stay in sight.
func (w *sheetWriter) pagesWide(columns int) int {
	width := 0.0
	for i := range columns {
		width += w.columnWidth(i)
	}
	return 1 + int(width/widestPage)
}

// breakPages begins a page before the second row of charts, the fourth and so on, where the sheet is not made to fit.
func (w *sheetWriter) breakPages() error {
	if w.leaf.scale == 0 {
		return nil
	}
	size := uint(w.leaf.scale)
	if err := w.file.SetPageLayout(w.name, &excelize.PageLayoutOptions{AdjustTo: &size}); err != nil {
		return err
	}
	for i := 2; i < len(w.leaf.charts); i += 4 {
		_, row := w.leaf.place(i)
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
	err = b.file.SetHeaderFooter(name, &excelize.HeaderFooterOptions{OddHeader: "&L" + b.title + "&R&A", OddFooter: "&Lplumbline&RPage &P of &N"})
	if err != nil {
		return err
	}
	last, err := excelize.ColumnNumberToName(columns)
	if err != nil {
		return err
	}
	return b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: name,
		RefersTo: fmt.Sprintf("%s!$A$1:$%s$%d", quotedSheet(name), last, rows)})
}
