package intake

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

const damagedSheet = "open it, save it as XLSX, and try again"

// foreignSheet writes the cells of the profile's sheet as text, dates in the layout's form.
func (im *importing) foreignSheet(p *part) (*foreignFile, error) {
	var err error
	if p.sha256, err = hashed(p.file, nil); err != nil {
		return nil, err
	}
	book, err := openWorkbook(p)
	if err != nil {
		return nil, err
	}
	defer book.Close()
	if p.sheet, err = im.foreignSheetName(p, book); err != nil {
		return nil, err
	}
	date1904, err := isDate1904(book)
	if err != nil {
		return nil, p.refuse("cannot be read as a workbook: "+err.Error(), damagedSheet)
	}
	rows, err := sheetRows(book, p)
	if err != nil {
		return nil, err
	}
	defer rows.close()
	lines := im.profile.Source.headerLines()
	if len(lines) == 0 {
		if lines, err = headlessSheet(p, book); err != nil {
			return nil, err
		}
	}
	cells := foreignCells{book, p.sheet, date1904, im.profile.Source.Decimal}
	out, err := im.foreignSheetRows(p, rows, lines, cells)
	if err != nil {
		return nil, err
	}
	im.reportHidden(p)
	return &foreignFile{out, cells.serials()}, nil
}

// foreignSheetRows reads the header in the lines given, none where the file has none, and then the rows below it.
func (im *importing) foreignSheetRows(p *part, rows *pairOfRows, lines []int, cells foreignCells) (*stagingFile, error) {
	var out *stagingFile
	var err error
	headers, last, hidden := make([][]string, len(lines)), 0, 0
	if p.headless {
		if out, err = im.newStagingFile(len(p.header)); err != nil {
			return nil, err
		}
	} else {
		last = lines[len(lines)-1]
	}
	for rows.next() {
		row, err := cells.read(rows)
		if err != nil {
			return nil, p.refuse("cannot be read: "+err.Error(), damagedSheet)
		}
		at := slices.Index(lines, int(rows.line))
		if rows.line == 1 && isRejectHeader(row) {
			at, last, headers = 0, 1, make([][]string, 1)
		}
		if at >= 0 {
			headers[at] = row
		}
		switch {
		case rows.line < int64(last):
		case out == nil:
			if p.header = joinedHeader(headers); len(p.header) == 0 || len(p.header) > mostColumns {
				return nil, p.refuse(fmt.Sprintf("has no header of up to %d columns in row %d", mostColumns, rows.line), "mend header_row in the profile")
			}
			if out, err = im.newStagingFile(len(p.header)); err != nil {
				return nil, err
			}
		default:
			if rows.stored.GetRowOpts().Hidden {
				hidden++
			}
			if err := out.add(rows.line, padded(row, len(p.header)), ""); err != nil {
				return nil, err
			}
		}
	}
	if out == nil || rows.err() != nil {
		return nil, p.refuse("cannot be read: the sheet ends before its header, or is damaged", "mend header_row in the profile")
	}
	if hidden > 0 {
		im.notice("%s: hidden rows: %d; they were read all the same", p.name(), hidden)
	}
	return out, nil
}

// foreignSheetName is the sheet that the profile names, or the first that is shown. Hidden ones are told.
func (im *importing) foreignSheetName(p *part, book *excelize.File) (string, error) {
	found := ""
	for _, name := range book.GetSheetList() {
		visible, err := book.GetSheetVisible(name)
		wanted := im.profile.Source.Sheet
		if found == "" && (strings.EqualFold(name, wanted) || (wanted == "" && err == nil && visible)) {
			found = name
			if !visible {
				im.notice("%s %s: the sheet is hidden; it was read all the same", p.file, name)
			}
			continue
		}
		if err == nil && !visible {
			im.notice("%s %s: the sheet is hidden and was not read", p.file, name)
		}
	}
	if found == "" {
		found = rejectsSheet(book)
	}
	if found == "" {
		return "", im.profile.refuse("source.sheet", fmt.Sprintf("the file has no sheet %q; its sheets are %s",
			im.profile.Source.Sheet, strings.Join(book.GetSheetList(), ", ")))
	}
	return found, nil
}

// rejectsSheet is the sheet of a file of rejects, whatever the one was called that they come from; empty in other books.
func rejectsSheet(book *excelize.File) string {
	for _, name := range book.GetSheetList() {
		if corner, err := book.GetCellValue(name, "A1"); err == nil && plainName(corner) == rejectColumns[0] {
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
	row, shown, err := rows.cells()
	for i := range min(len(row), len(shown)) {
		row[i] = foreignCell(row[i], shown[i], c.date1904)
		if c.decimal != "." && strings.Contains(row[i], ".") {
			var cellErr error
			row[i], cellErr = c.marked(row[i], i+1, rows.line)
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

// looksMonth is a day or month with the month as a word.
var looksMonth = regexp.MustCompile(`(?i)^(\d{1,2}[-. ]+)?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[-., ]+\d{1,4}`)

// foreignCell writes a number that is shown as a date or clock in the layout's form. What is shown tells.
func foreignCell(raw, shown string, date1904 bool) string {
	serial, err := strconv.ParseFloat(raw, 64)
	if err != nil || raw == shown || !(looksDate.MatchString(shown) || looksClock.MatchString(shown) || looksMonth.MatchString(shown)) {
		return raw
	}
	if serial < 1 && strings.Contains(shown, ":") {
		clock := momentText(raw, shown, date1904)
		return clock[strings.LastIndexByte(clock, ' ')+1:]
	}
	return momentText(raw, shown, date1904)
}
