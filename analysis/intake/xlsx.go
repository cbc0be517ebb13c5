package intake

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// mostUnzipped is how large a workbook may be once unzipped; what is larger is a trap, not a shop's sheet.
const mostUnzipped = 2 << 30

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
	if err := p.settleKind(im.o.Kind); err != nil {
		im.notice("%s: skipped, the sheet holds no kind of record", p.name())
		return 0, nil
	}
	if visible, err := book.GetSheetVisible(p.sheet); err == nil && !visible {
		im.notice("%s: the sheet is hidden; it was read all the same", p.name())
	}
	im.reportHidden(p, book)
	return 1, im.part(p)
}

func (im *importing) reportHidden(p *part, book *excelize.File) {
	for i, name := range p.header {
		letters, _ := excelize.ColumnNumberToName(i + 1)
		if visible, err := book.GetColVisible(p.sheet, letters); err == nil && !visible && name != "" {
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

// openWorkbook refuses what is no workbook, in words that tell the cases apart.
func openWorkbook(p *part) (*excelize.File, error) {
	head, err := os.ReadFile(p.file)
	if err != nil {
		return nil, err
	}
	if bytes.HasPrefix(head, []byte{0xD0, 0xCF, 0x11, 0xE0}) {
		if bytes.Contains(head, utf16Bytes("EncryptedPackage")) {
			return nil, p.refuse("is protected by a password", "save it without one")
		}
		return nil, p.refuse("is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
	}
	book, err := excelize.OpenReader(bytes.NewReader(head), excelize.Options{UnzipSizeLimit: mostUnzipped})
	switch {
	case err == nil:
		return book, nil
	case errors.Is(err, excelize.ErrWorkbookFileFormat) || strings.Contains(err.Error(), "zip"):
		return nil, p.refuse("cannot be read as a workbook: it is cut short, damaged or something else",
			"open it, save it as XLSX, and try again")
	}
	return nil, p.refuse("cannot be read as a workbook: "+err.Error(), "open it, save it as XLSX, and try again")
}

func utf16Bytes(text string) []byte {
	var out []byte
	for _, c := range []byte(text) {
		out = append(out, c, 0)
	}
	return out
}

func isDate1904(book *excelize.File) (bool, error) {
	properties, err := book.GetWorkbookProps()
	if err != nil || properties.Date1904 == nil {
		return false, err
	}
	return *properties.Date1904, nil
}

// stage writes the sheet's cells as text. A number in a timestamp's column is a date of the workbook's epoch; the same
// row as it is shown tells a date alone from a midnight, for the cell's style decides which it is.
func (s *sheet) stage(im *importing, p *part) error {
	raw, err := s.book.Rows(s.name)
	if err != nil {
		return err
	}
	defer raw.Close()
	shown, err := s.book.Rows(s.name)
	if err != nil {
		return err
	}
	defer shown.Close()
	out, err := im.newStagingFile(len(p.header))
	if err != nil {
		return err
	}
	isMoment := make([]bool, len(p.header))
	for name, place := range p.places {
		isMoment[place] = p.kind.Column(name).isMoment()
	}
	pastHeader := false
	for line := int64(1); raw.Next() && shown.Next(); line++ {
		cells, err := raw.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return p.refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		formatted, err := shown.Columns()
		if err != nil {
			return p.refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		if !pastHeader {
			pastHeader = len(trimmedCells(cells)) > 0
			continue
		}
		for i := range min(len(cells), len(isMoment)) {
			if isMoment[i] && i < len(formatted) {
				cells[i] = momentText(cells[i], formatted[i], s.date1904)
			}
		}
		if err := out.add(line, padded(cells, len(p.header)), ""); err != nil {
			return err
		}
	}
	if err := errors.Join(raw.Error(), shown.Error()); err != nil {
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
