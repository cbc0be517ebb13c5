package source

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/layout"
)

const damagedSheet = "open it, save it as XLSX, and try again"

// workbook writes the cells of a sheet as text, dates in the layout's form.
func (r Reader) workbook(p *Table) (*ForeignFile, error) {
	var err error
	if p.SHA256, err = Hashed(p.File, nil); err != nil {
		return nil, err
	}
	book, err := OpenWorkbook(p)
	if err != nil {
		return nil, err
	}
	defer book.Close()
	if p.Sheet, err = r.sheetOf(p, book); err != nil {
		return nil, err
	}
	date1904, err := IsDate1904(book)
	if err != nil {
		return nil, p.Refuse("cannot be read as a workbook: "+err.Error(), damagedSheet)
	}
	rows, err := SheetRows(book, p)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	lines := r.Lines
	if len(lines) == 0 {
		if lines, err = headlessSheet(p, book); err != nil {
			return nil, err
		}
	}
	cells := foreignCells{book, p.Sheet, date1904, r.Decimal}
	out, err := r.sheetRows(p, rows, lines, cells)
	if err != nil {
		return nil, err
	}
	for _, remark := range HiddenRemarks(p) {
		r.Notice("%s", remark)
	}
	return &ForeignFile{out, cells.serials()}, nil
}

// SheetRows reads the header in the lines given, none where the file has none, and then the rows below it.
func (r Reader) sheetRows(p *Table, rows *pairOfRows, lines []int, cells foreignCells) (*StagingFile, error) {
	var out *StagingFile
	var err error
	headers, last, hidden := make([][]string, len(lines)), 0, 0
	if p.Headless {
		if out, err = NewStagingFile(r.Dir, len(p.Header)); err != nil {
			return nil, err
		}
	} else {
		last = lines[len(lines)-1]
	}
	for rows.Next() {
		row, err := cells.read(rows)
		if err != nil {
			return nil, p.Refuse("cannot be read: "+err.Error(), damagedSheet)
		}
		at := slices.Index(lines, int(rows.Line))
		if rows.Line == 1 && IsRejectHeader(row) {
			at, last, headers = 0, 1, make([][]string, 1)
		}
		if at >= 0 {
			headers[at] = row
		}
		switch {
		case rows.Line < int64(last):
		case out == nil:
			if p.Header = JoinedHeader(headers); len(p.Header) == 0 || len(p.Header) > MostColumns {
				return nil, p.Refuse(fmt.Sprintf("has no header of up to %d columns in row %d", MostColumns, rows.Line), "mend header_row in the profile")
			}
			if out, err = NewStagingFile(r.Dir, len(p.Header)); err != nil {
				return nil, err
			}
		default:
			if rows.stored.GetRowOpts().Hidden {
				hidden++
			}
			if err := out.Add(rows.Line, Padded(row, len(p.Header)), ""); err != nil {
				return nil, err
			}
		}
	}
	if out == nil || rows.Err() != nil {
		return nil, p.Refuse("cannot be read: the sheet ends before its header, or is damaged", "mend header_row in the profile")
	}
	if hidden > 0 {
		r.Notice("%s: hidden rows: %d; they were read all the same", p.Name(), hidden)
	}
	return out, nil
}

// rejectsSheet is the sheet of a file of rejects, whatever the one was called that they come from; empty in other books.
func rejectsSheet(book *excelize.File) string {
	for _, name := range book.GetSheetList() {
		if corner, err := book.GetCellValue(name, "A1"); err == nil && layout.PlainName(corner) == RejectColumns[0] {
			return name
		}
	}
	return ""
}

// foreignCells writes a sheet's cells as the text that a profile reads.
type foreignCells struct {
	book     *excelize.File
	sheet    string
	date1904 bool
	decimal  string // the mark of decimals in the profile's numbers
}

func (c foreignCells) serials() string {
	if c.date1904 {
		return "1904"
	}
	return "1900"
}

func (c foreignCells) read(rows *pairOfRows) ([]string, error) {
	row, shown, err := rows.Cells()
	for i := range min(len(row), len(shown)) {
		row[i] = ForeignCell(row[i], shown[i], c.date1904)
		if c.decimal != "." && strings.Contains(row[i], ".") {
			var cellErr error
			row[i], cellErr = c.marked(row[i], i+1, rows.Line)
			err = errors.Join(err, cellErr)
		}
	}
	return row, err
}

// marked gives a number that is stored as one the profile's decimal mark, so that it is read like those written as text.
func (c foreignCells) marked(text string, column int, line int64) (string, error) {
	if _, err := strconv.ParseFloat(text, 64); err != nil {
		return text, nil
	}
	name, err := excelize.CoordinatesToCellName(column, int(line))
	if err != nil {
		return "", err
	}
	kind, err := c.book.GetCellType(c.sheet, name)
	if err == nil && (kind == excelize.CellTypeNumber || kind == excelize.CellTypeUnset) {
		text = strings.Replace(text, ".", c.decimal, 1)
	}
	return text, err
}

// ForeignCell writes a number that is shown as a date or clock in the layout's form. What is shown tells.
func ForeignCell(raw, shown string, date1904 bool) string {
	serial, err := strconv.ParseFloat(raw, 64)
	if err != nil || raw == shown || !(LooksDate.MatchString(shown) || LooksClock.MatchString(shown) || LooksMonth.MatchString(shown)) {
		return raw
	}
	if serial < 1 && strings.Contains(shown, ":") {
		clock := MomentText(raw, shown, date1904)
		return clock[strings.LastIndexByte(clock, ' ')+1:]
	}
	return MomentText(raw, shown, date1904)
}
