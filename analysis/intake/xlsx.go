package intake

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// A sheet is the source of a part in a workbook.
type sheet struct {
	book     *excelize.File
	name     string
	date1904 bool
}

// workbook takes every sheet of an XLSX file that holds a kind of record.
func (im *importing) workbook(file input) error {
	p := part{file: file.name, bytes: file.bytes}
	var err error
	if p.sha256, err = hashed(file.name, nil); err != nil {
		return err
	}
	book, err := openWorkbook(&p)
	if err != nil {
		return err
	}
	defer book.Close()
	date1904, err := isDate1904(book)
	if err != nil {
		return p.refuse("cannot be read as a workbook: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	found := 0
	for _, name := range book.GetSheetList() {
		one := p
		one.sheet, one.source = name, &sheet{book, name, date1904}
		taken, err := im.sheet(&one, book)
		if err != nil {
			return err
		}
		found += taken
	}
	if found == 0 {
		return p.refuse("has no sheet that holds a kind of record",
			"name a sheet after what it holds, say jobs, or describe it in a profile: plumbline profile "+p.file)
	}
	return nil
}

// sheet takes one sheet, and says 1 where it held records. A sheet that fits no kind is passed over, for workbooks
// carry notes and charts too.
func (im *importing) sheet(p *part, book *excelize.File) (int, error) {
	rows, err := book.Rows(p.sheet)
	if err != nil {
		return 0, nil // a chart sheet
	}
	defer rows.Close()
	for rows.Next() && len(p.header) == 0 {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return 0, p.refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		p.header = trimmedCells(cells)
	}
	if rows.Error() != nil {
		return 0, p.refuse("cannot be read: the workbook is damaged", "open it, save it as XLSX, and try again")
	}
	if len(p.header) == 0 {
		return 0, nil
	}
	if len(p.header) > mostColumns {
		return 0, p.refuse(fmt.Sprintf("has %d columns", len(p.header)), "give a sheet of records")
	}
	err = p.settleKind(im.o.Kind)
	if im.o.Kind != "" && err != nil {
		return 0, err // there is no such kind
	}
	if err != nil || (im.o.Kind != "" && knownColumns(p.kind, p.header) == 0 && len(book.GetSheetList()) > 1) {
		im.notice("%s: skipped, the sheet holds no kind of record that was asked for", p.name())
		return 0, nil
	}
	if visible, err := book.GetSheetVisible(p.sheet); err == nil && !visible {
		im.notice("%s: the sheet is hidden; it was read all the same", p.name())
	}
	im.reportHidden(p)
	return 1, im.part(p)
}

// reportHidden tells of columns that a person who looks at the sheet does not see.
func (im *importing) reportHidden(p *part) {
	hidden, err := hiddenColumns(p.file, p.sheet)
	if err != nil {
		im.notice("%s: it could not be told which columns are hidden; all were read", p.name())
	}
	for _, i := range within(hidden, len(p.header)) {
		if name := p.header[i]; name != "" {
			im.notice("%s: the column %q is hidden; it was read all the same", p.name(), name)
		}
	}
}

func trimmedCells(cells []string) []string {
	header := make([]string, len(cells))
	for i, cell := range cells {
		header[i] = strings.TrimSpace(cell)
	}
	for len(header) > 0 && header[len(header)-1] == "" {
		header = header[:len(header)-1]
	}
	return header
}

// A pairOfRows goes through a sheet twice at once: the cells as stored, and as their styles show them.
type pairOfRows struct {
	stored, shown *excelize.Rows
	line          int64
}

func sheetRows(book *excelize.File, p *part) (*pairOfRows, error) {
	stored, err := book.Rows(p.sheet)
	if err != nil {
		return nil, p.refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	shown, err := book.Rows(p.sheet)
	if err != nil {
		return nil, p.refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	return &pairOfRows{stored: stored, shown: shown}, nil
}

func (r *pairOfRows) next() bool {
	r.line++
	return r.stored.Next() && r.shown.Next()
}

func (r *pairOfRows) cells() (stored, shown []string, err error) {
	if stored, err = r.stored.Columns(excelize.Options{RawCellValue: true}); err != nil {
		return nil, nil, err
	}
	shown, err = r.shown.Columns()
	return stored, shown, err
}

func (r *pairOfRows) err() error   { return errors.Join(r.stored.Error(), r.shown.Error()) }
func (r *pairOfRows) close() error { return errors.Join(r.stored.Close(), r.shown.Close()) }

// stage writes the sheet's cells as text. A number in a timestamp's column is a date of the workbook's epoch; the same
// row as it is shown tells a date alone from a midnight, for the cell's style decides which it is.
func (s *sheet) stage(im *importing, p *part) error {
	rows, err := sheetRows(s.book, p)
	if err != nil {
		return err
	}
	defer rows.close()
	out, err := im.newStagingFile(len(p.header))
	if err != nil {
		return err
	}
	isMoment := make([]bool, len(p.header))
	for name, place := range p.places {
		isMoment[place] = p.kind.Column(name).isMoment()
	}
	pastHeader := false
	for rows.next() {
		cells, shown, err := rows.cells()
		if err != nil {
			return p.refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		if !pastHeader {
			pastHeader = len(trimmedCells(cells)) > 0
			continue
		}
		for i := range min(len(cells), len(isMoment), len(shown)) {
			if isMoment[i] {
				cells[i] = momentText(cells[i], shown[i], s.date1904)
			}
		}
		if err := out.add(rows.line, padded(cells, len(p.header)), ""); err != nil {
			return err
		}
	}
	if rows.err() != nil {
		return p.refuse("cannot be read: the workbook is damaged", "open it, save it as XLSX, and try again")
	}
	return out.load(im, p)
}

// padded gives a row the header's width: a sheet does not store the empty cells at its end.
func padded(cells []string, width int) []string {
	for len(cells) < width {
		cells = append(cells, "")
	}
	return cells
}

// momentText writes a date serial in the layout's form; anything else is left as it is.
//
// Source: ECMA-376 part 1, 18.17.4.1. Days count from 1899-12-30, or from 1904-01-01; in the 1900 system serials below
// 61 lie a day off, for that system has a 29 February 1900.
func momentText(raw, shown string, date1904 bool) string {
	serial, err := strconv.ParseFloat(raw, 64)
	if err != nil || math.IsNaN(serial) || serial < 0 || serial > 2958465.99999999 {
		return raw
	}
	at, err := excelize.ExcelDateToTime(serial, date1904)
	if err != nil {
		return raw
	}
	if serial == math.Trunc(serial) && !strings.Contains(shown, ":") {
		return at.Format("2006-01-02")
	}
	return at.Format("2006-01-02 15:04:05")
}
