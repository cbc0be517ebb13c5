package source

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// sheetsOf are the sheets that are asked for: one by its name, the first that is shown, or all that have the columns asked
// for. The others are told.
func (r Reader) sheetsOf(t *Table, book *excelize.File) ([]string, error) {
	var found []string
	for _, name := range book.GetSheetList() {
		visible, err := book.GetSheetVisible(name)
		isShown := err == nil && visible
		switch {
		case r.Alike && isShown && r.hasColumns(t, book, name):
			found = append(found, name)
		case r.Alike && isShown:
			r.Notice("%s %s: the sheet does not have the columns of the others and was not read", t.File, name)
		case !r.Alike && len(found) == 0 && (strings.EqualFold(name, r.Sheet) || (r.Sheet == "" && isShown)):
			found = []string{name}
			if !visible {
				r.Notice("%s %s: the sheet is hidden; it was read all the same", t.File, name)
			}
		case err == nil && !visible:
			r.Notice("%s %s: the sheet is hidden and was not read", t.File, name)
		case isShown:
			r.Notice("%s %s: the sheet was not read", t.File, name)
		}
	}
	if len(found) > 0 {
		return found, nil
	}
	if rejects := rejectsSheet(book); rejects != "" {
		return []string{rejects}, nil
	}
	return nil, &NoSheet{r.Sheet, book.GetSheetList()}
}

// hasColumns tells whether the columns that are asked for stand near a sheet's top.
func (r Reader) hasColumns(t *Table, book *excelize.File, name string) bool {
	one := *t
	one.Sheet = name
	head, err := foreignCells{book: book, sheet: name, decimal: ".", merged: &merges{}}.head(&one)
	if err != nil || r.Fits == nil || len(r.Lines) == 0 {
		return false // a sheet of drawings
	}
	for _, lines := range append([][]int{r.Lines}, shifted(r.Lines)...) {
		if r.fitsAt(head, lines) {
			return true
		}
	}
	return false
}

// A NoSheet error says that the workbook has no sheet of the name asked for.
type NoSheet struct {
	sheet string
	has   []string
}

// Error names the sheets that are there.
func (e *NoSheet) Error() string {
	if e.sheet == "" {
		return fmt.Sprintf("no sheet of the file has the columns that the profile uses; its sheets are %s", strings.Join(e.has, ", "))
	}
	return fmt.Sprintf("the file has no sheet %q; its sheets are %s", e.sheet, strings.Join(e.has, ", "))
}
