package source

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// sheetOf is the sheet that is asked for, or the first that is shown. Hidden ones are told.
func (r Reader) sheetOf(p *Table, book *excelize.File) (string, error) {
	found := ""
	for _, name := range book.GetSheetList() {
		visible, err := book.GetSheetVisible(name)
		wanted := r.Sheet
		if found == "" && (strings.EqualFold(name, wanted) || (wanted == "" && err == nil && visible)) {
			found = name
			if !visible {
				r.Notice("%s %s: the sheet is hidden; it was read all the same", p.File, name)
			}
			continue
		}
		if err == nil && !visible {
			r.Notice("%s %s: the sheet is hidden and was not read", p.File, name)
		}
	}
	if found == "" {
		found = rejectsSheet(book)
	}
	if found == "" {
		return "", &NoSheet{r.Sheet, book.GetSheetList()}
	}
	return found, nil
}

// A NoSheet error says that the workbook has no sheet of the name asked for.
type NoSheet struct {
	sheet string
	has   []string
}

// Error names the sheets that are there.
func (e *NoSheet) Error() string {
	return fmt.Sprintf("the file has no sheet %q; its sheets are %s", e.sheet, strings.Join(e.has, ", "))
}
