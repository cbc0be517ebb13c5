package source

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/layout"
)

// HiddenRows is how a notice tells of them: the table, and how many.
const HiddenRows = "%s: hidden rows: %d; they were read all the same"

const damagedSheet = "open it, save it as XLSX, and try again"

// workbook reads the cells of the sheets that are asked for as text, dates in the layout's form.
func (r Reader) workbook(t *Table) ([]*ForeignFile, error) {
	var err error
	if t.SHA256, err = Hashed(t.File, nil); err != nil {
		return nil, err
	}
	book, err := OpenWorkbook(t)
	if err != nil {
		return nil, err
	}
	defer book.Close()
	date1904, err := IsDate1904(book)
	if err != nil {
		return nil, t.Refuse("cannot be read as a workbook: "+err.Error(), damagedSheet)
	}
	sheets, err := r.sheetsOf(t, book)
	if err != nil {
		return nil, err
	}
	var all []*ForeignFile
	for _, name := range sheets {
		one := *t
		one.Sheet = name
		cells := foreignCells{book, name, date1904, r.Decimal, &merges{}}
		if cells.merged.ranges, err = mergedRanges(t.File, name); err != nil {
			r.Notice("%s: it could not be told which cells are merged", one.Name())
		}
		read, err := r.sheet(&one, cells)
		if err != nil {
			return nil, err
		}
		all = append(all, read)
	}
	if len(all) > 0 {
		*t = all[0].Table
	}
	return all, nil
}

func (r Reader) sheet(t *Table, cells foreignCells) (*ForeignFile, error) {
	lines := r.Lines
	var err error
	if len(lines) == 0 {
		if lines, err = headlessSheet(t, cells.book); err != nil {
			return nil, err
		}
	} else if lines, err = r.sheetLines(t, cells); err != nil {
		return nil, err
	}
	rows, err := SheetRows(cells.book, t)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	out, err := r.sheetRows(t, rows, lines, cells)
	if err != nil {
		return nil, err
	}
	for _, remark := range HiddenRemarks(t) {
		r.Notice("%s", remark)
	}
	if r.IDs != nil {
		for _, remark := range CellRemarks(cells.book, &out.Table, r.IDs(out.Table.Header), cells.written) {
			r.Notice("%s", remark)
		}
	}
	out.Serials = cells.serials()
	return out, nil
}

// sheetLines are the lines of the header: those given, or others near the top where the columns asked for stand there.
func (r Reader) sheetLines(t *Table, cells foreignCells) ([]int, error) {
	if r.Fits == nil {
		return r.Lines, nil
	}
	head, err := cells.head(t)
	if err != nil || r.fitsAt(head, r.Lines) {
		return r.Lines, err
	}
	for _, lines := range shifted(r.Lines) {
		if r.fitsAt(head, lines) {
			r.tellShift(t, lines)
			return lines, nil
		}
	}
	return r.Lines, nil
}

func (r Reader) fitsAt(head [][]string, lines []int) bool {
	headers := make([][]string, len(lines))
	for i, line := range lines {
		if line > len(head) {
			return false
		}
		headers[i] = head[line-1]
	}
	return r.Fits(JoinedHeader(headers))
}

// sheetRows reads the header in the lines given, none where the file has none, and then the rows below it.
func (r Reader) sheetRows(t *Table, rows *pairOfRows, lines []int, cells foreignCells) (*ForeignFile, error) {
	var out *ForeignFile
	var err error
	headers, last, hidden := make([][]string, len(lines)), 0, 0
	if t.Headless {
		if out, err = r.out(t, len(t.Header)); err != nil {
			return nil, err
		}
	} else {
		last = lines[len(lines)-1]
	}
	for rows.Next() {
		row, err := cells.read(rows)
		if err != nil {
			return nil, t.Refuse("cannot be read: "+err.Error(), damagedSheet)
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
			if t.Header = JoinedHeader(headers); len(t.Header) == 0 || len(t.Header) > MostColumns {
				return nil, t.Refuse(fmt.Sprintf("has no header of up to %d columns in row %d", MostColumns, rows.Line), "mend header_row in the profile")
			}
			t.Top = last
			if out, err = r.out(t, len(t.Header)); err != nil {
				return nil, err
			}
		default:
			if rows.stored.GetRowOpts().Hidden {
				hidden++
			}
			if err := out.Add(rows.Line, Padded(row, len(t.Header)), ""); err != nil {
				return nil, err
			}
		}
	}
	if out == nil || rows.Err() != nil {
		return nil, t.Refuse("cannot be read: the sheet ends before its header, or is damaged", "mend header_row in the profile")
	}
	if hidden > 0 {
		r.Notice(HiddenRows, t.Name(), hidden)
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
	merged   *merges
}

// head reads the first rows of the sheet.
func (c foreignCells) head(t *Table) ([][]string, error) {
	rows, err := SheetRows(c.book, t)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var head [][]string
	c.merged = &merges{ranges: c.merged.ranges}
	for rows.Next() && len(head) < 2*shiftedWithin {
		row, err := c.read(rows)
		if err != nil {
			return nil, t.Refuse("cannot be read: "+err.Error(), damagedSheet)
		}
		head = append(head, row)
	}
	return head, nil
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
	return c.merged.carry(row, int(rows.Line)), err
}

// written is how a number that the cell shows so is read.
func (c foreignCells) written(raw, shown string) string {
	text := ForeignCell(raw, shown, c.date1904)
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		text = strings.Replace(text, ".", c.decimal, 1)
	}
	return text
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

// zeroLed are digits that a number would lose.
var zeroLed = regexp.MustCompile(`^0\d+$`)

// ForeignCell writes a number that is shown as a date or clock in the layout's form. What is shown tells.
func ForeignCell(raw, shown string, date1904 bool) string {
	serial, err := strconv.ParseFloat(raw, 64)
	switch {
	case err != nil || raw == shown:
		return raw
	case shown == "TRUE" || shown == "FALSE" || zeroLed.MatchString(shown): // a number that is shown as 00123 is no number
		return shown
	case strings.HasSuffix(shown, "%"):
		return strconv.FormatFloat(math.Round(serial*1e10)/1e8, 'f', -1, 64) + "%"
	}
	if !(LooksDate.MatchString(shown) || LooksClock.MatchString(shown) || LooksMonth.MatchString(shown)) {
		return raw
	}
	if serial < 1 && strings.Contains(shown, ":") {
		clock := MomentText(raw, shown, date1904)
		return clock[strings.LastIndexByte(clock, ' ')+1:]
	}
	return MomentText(raw, shown, date1904)
}

// HeadOfSheet reads the first rows of a sheet as a profile's import reads them.
func HeadOfSheet(book *excelize.File, t *Table, most int) ([]NumberedRow, error) {
	date1904, err := IsDate1904(book)
	if err != nil {
		return nil, t.Refuse("cannot be read as a workbook: "+err.Error(), damagedSheet)
	}
	merged, err := mergedRanges(t.File, t.Sheet)
	if err != nil {
		merged = nil // the import tells
	}
	cells := foreignCells{book, t.Sheet, date1904, ".", &merges{ranges: merged}}
	rows, err := SheetRows(book, t)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var head []NumberedRow
	for rows.Next() && len(head) < most {
		row, err := cells.read(rows)
		if err != nil {
			return nil, t.Refuse("cannot be read: "+err.Error(), damagedSheet)
		}
		head = append(head, NumberedRow{int(rows.Line), row})
	}
	if rows.Err() != nil {
		return nil, t.Refuse("cannot be read: the workbook is damaged", damagedSheet)
	}
	return head, nil
}
