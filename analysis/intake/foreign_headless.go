package intake

import (
	"fmt"
	"io"
	"strings"

	"github.com/xuri/excelize/v2"
)

// This file reads what another program wrote without a row that names the columns. They are called by their place, and the
// first row is a row like any other.

// numberedNames are column 1, column 2 …
func numberedNames(width int) []string {
	names := make([]string, width)
	for i := range names {
		names[i] = fmt.Sprintf("column %d", i+1)
	}
	return names
}

// headlessAt names the columns of a text by their place, and gives a lexer that stands before its first row. A file of
// rejects has a header all the same.
func headlessAt(in io.ReadSeeker, p *part) (*lexer, error) {
	head, err := likeliestCut(in, p)
	switch {
	case err != nil:
		return nil, err
	case len(head.rows) == 0:
		return nil, p.refuse("has no rows", "export it again")
	case isRejectHeader(head.rows[0].cells):
		return headerAt(in, []int{1}, p)
	case head.width > mostColumns:
		return nil, p.refuse(fmt.Sprintf("has %d columns", head.width), "give a file of records")
	}
	p.header, p.headless = numberedNames(head.width), true
	if _, err := in.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	return newLexer(in, head.delimiter), nil
}

// headlessSheet names the columns of a sheet by their place, as many as its widest row has, for a sheet does not store
// the empty cells at a row's end. The lines given back name the columns after all: those of a file of rejects.
func headlessSheet(p *part, book *excelize.File) ([]int, error) {
	rows, err := book.Rows(p.sheet)
	if err != nil {
		return nil, p.refuse("cannot be read: "+err.Error(), damagedSheet)
	}
	defer rows.Close()
	width := 0
	for first := true; rows.Next(); first = false {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, p.refuse("cannot be read: "+err.Error(), damagedSheet)
		}
		if first && isRejectHeader(cells) {
			return []int{1}, nil
		}
		if cells = trimmedCells(cells); len(cells) <= mostColumns {
			width = max(width, len(cells))
		}
	}
	if width == 0 {
		return nil, p.refuse("has no rows", "look at the sheet, or name another with sheet in the profile")
	}
	p.header, p.headless = numberedNames(width), true
	return nil, nil
}

// numbersColumns reminds of how the columns are called where no row names them.
func (s ProfileSource) numbersColumns(header []string) string {
	if len(s.headerLines()) > 0 {
		return ""
	}
	return fmt.Sprintf("; header_row = 0 calls its columns by their place, column 1 to column %d", len(ownColumns(header)))
}

// tellIfData says that the row taken for the column names looks like one of the rows below it: it would be lost.
func (im *importing) tellIfData(p *part) {
	lines := im.profile.Source.headerLines()
	if p.headless || isRejectHeader(p.header) {
		return
	}
	for i, name := range p.header {
		if looksDate.MatchString(name) || looksVIN.MatchString(name) {
			place := Fault{File: p.file, Sheet: p.sheet, Line: int64(lines[len(lines)-1]), Cell: i + 1}.place()
			im.notice("%s: the row that is taken for the columns' names holds %q, as a row of data does; "+
				"if no row names the columns, say header_row = 0 in the profile, or the row is lost", place, strings.TrimSpace(name))
			return
		}
	}
}
