package intake

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// foreignSheet writes the cells of the profile's sheet as text, dates in the layout's form.
func (im *importing) foreignSheet(p *part) (*stagingFile, error) {
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
		return nil, p.refuse("cannot be read as a workbook: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	rows, err := sheetRows(book, p)
	if err != nil {
		return nil, err
	}
	defer rows.close()
	var out *stagingFile
	for rows.next() {
		cells, shown, err := rows.cells()
		if err != nil {
			return nil, p.refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		for i := range min(len(cells), len(shown)) {
			cells[i] = foreignCell(cells[i], shown[i], date1904)
		}
		switch {
		case rows.line < int64(im.profile.Source.HeaderRow):
		case out == nil:
			if p.header = trimmedCells(cells); len(p.header) == 0 || len(p.header) > mostColumns {
				return nil, p.refuse(fmt.Sprintf("has no header in row %d", rows.line), "mend header_row in the profile")
			}
			if out, err = im.newStagingFile(len(p.header)); err != nil {
				return nil, err
			}
		default:
			if err := out.add(rows.line, padded(cells, len(p.header)), ""); err != nil {
				return nil, err
			}
		}
	}
	if out == nil || rows.err() != nil {
		return nil, p.refuse("cannot be read: the sheet ends before its header, or is damaged", "mend header_row in the profile")
	}
	return out, nil
}

func (im *importing) foreignSheetName(p *part, book *excelize.File) (string, error) {
	for _, name := range book.GetSheetList() {
		visible, err := book.GetSheetVisible(name)
		switch {
		case im.profile.Source.Sheet != "" && strings.EqualFold(name, im.profile.Source.Sheet):
			return name, nil
		case im.profile.Source.Sheet == "" && err == nil && visible:
			return name, nil
		}
	}
	return "", p.refuse(fmt.Sprintf("has no sheet %q", im.profile.Source.Sheet), "mend sheet in the profile")
}

// foreignCell writes a number that is shown as a date or clock in the layout's form. What is shown tells: a number
// shown as something that is no number is a date.
func foreignCell(raw, shown string, date1904 bool) string {
	serial, err := strconv.ParseFloat(raw, 64)
	if err != nil || raw == shown || !strings.ContainsAny(shown, "/-:.") {
		return raw
	}
	plain := strings.Trim(strings.ReplaceAll(shown, ",", ""), "%$ ")
	if _, err := strconv.ParseFloat(plain, 64); err == nil {
		return raw
	}
	if serial < 1 && strings.Contains(shown, ":") {
		clock := momentText(raw, shown, date1904)
		return clock[strings.LastIndexByte(clock, ' ')+1:]
	}
	return momentText(raw, shown, date1904)
}
