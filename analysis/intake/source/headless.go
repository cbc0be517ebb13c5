package source

import (
	"fmt"
	"io"

	"github.com/xuri/excelize/v2"
)

// This file reads what another program wrote without a row that names the columns. They are called by their place, and the
// First row is a row like any other.

// NumberedNames are column 1, column 2 …
func NumberedNames(width int) []string {
	names := make([]string, width)
	for i := range names {
		names[i] = fmt.Sprintf("column %d", i+1)
	}
	return names
}

// headlessAt names the columns of a text by their place, and gives a lexer that stands before its first row. A file of
// rejects has a header all the same.
func headlessAt(in io.ReadSeeker, p *Table) (*lexer, error) {
	head, err := LikeliestCut(in, p)
	switch {
	case err != nil:
		return nil, err
	case len(head.Rows) == 0:
		return nil, p.Refuse("has no rows", "export it again")
	case IsRejectHeader(head.Rows[0].Cells):
		return headerAt(in, []int{1}, p)
	case head.Width > MostColumns:
		return nil, p.Refuse(fmt.Sprintf("has %d columns", head.Width), "give a file of records")
	}
	p.Header, p.Headless = NumberedNames(head.Width), true
	if _, err := in.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	return NewLexer(in, head.Delimiter), nil
}

// headlessSheet names the columns of a sheet by their place, as many as its widest row has, for a sheet does not store
// the empty cells at a row's end. The lines given back name the columns after all: those of a file of rejects.
func headlessSheet(p *Table, book *excelize.File) ([]int, error) {
	rows, err := book.Rows(p.Sheet)
	if err != nil {
		return nil, p.Refuse("cannot be read: "+err.Error(), damagedSheet)
	}
	defer rows.Close()
	width := 0
	for first := true; rows.Next(); first = false {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, p.Refuse("cannot be read: "+err.Error(), damagedSheet)
		}
		if first && IsRejectHeader(cells) {
			return []int{1}, nil
		}
		if cells = TrimmedCells(cells); len(cells) <= MostColumns {
			width = max(width, len(cells))
		}
	}
	if width == 0 {
		return nil, p.Refuse("has no rows", "look at the sheet, or name another with sheet in the profile")
	}
	p.Header, p.Headless = NumberedNames(width), true
	return nil, nil
}
