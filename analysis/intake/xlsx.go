package intake

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/intake/source"
)

// A sheet is the source of a part in a workbook.
type sheet struct {
	book     *excelize.File
	name     string
	date1904 bool
}

// workbook takes every sheet of an XLSX file that holds a kind of record.
func (im *importing) workbook(file source.Input) error {
	p := part{Table: source.Table{File: file.Name, Bytes: file.Bytes}}
	var err error
	if p.SHA256, err = source.Hashed(file.Name, nil); err != nil {
		return err
	}
	book, err := source.OpenWorkbook(&p.Table)
	if err != nil {
		return err
	}
	defer book.Close()
	date1904, err := source.IsDate1904(book)
	if err != nil {
		return p.Refuse("cannot be read as a workbook: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	found := 0
	for _, name := range book.GetSheetList() {
		one := p
		one.Sheet, one.source = name, &sheet{book, name, date1904}
		taken, err := im.sheet(&one, book)
		if err != nil {
			return err
		}
		found += taken
	}
	if found == 0 {
		return p.Refuse("has no sheet that holds a kind of record",
			"name a sheet after what it holds, say jobs, or describe it in a profile: plumbline profile "+p.File)
	}
	return nil
}

// sheet takes one sheet, and says 1 where it held records. A sheet that fits no kind is passed over, for workbooks
// carry notes and charts too.
func (im *importing) sheet(p *part, book *excelize.File) (int, error) {
	rows, err := book.Rows(p.Sheet)
	if err != nil {
		return 0, nil // a chart sheet
	}
	defer rows.Close()
	for rows.Next() && len(p.Header) == 0 {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return 0, p.Refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		p.Header = source.TrimmedCells(cells)
		p.Top++
	}
	if rows.Error() != nil {
		return 0, p.Refuse("cannot be read: the workbook is damaged", "open it, save it as XLSX, and try again")
	}
	if len(p.Header) == 0 {
		return 0, nil
	}
	if len(p.Header) > source.MostColumns {
		return 0, p.Refuse(fmt.Sprintf("has %d columns", len(p.Header)), "give a sheet of records")
	}
	err = p.settleKind(im.o.Kind)
	if im.o.Kind != "" && err != nil {
		return 0, err // there is no such kind
	}
	if err != nil || (im.o.Kind != "" && knownColumns(p.kind, p.Header) == 0 && len(book.GetSheetList()) > 1) {
		im.notice("%s: skipped, the sheet holds no kind of record that was asked for", p.Name())
		return 0, nil
	}
	if visible, err := book.GetSheetVisible(p.Sheet); err == nil && !visible {
		im.notice("%s: the sheet is hidden; it was read all the same", p.Name())
	}
	for _, remark := range source.HiddenRemarks(&p.Table) {
		im.notice("%s", remark)
	}
	return 1, im.part(p)
}

// stage writes the sheet's cells as text. A number in a timestamp's column is a date of the workbook's epoch; the same
// row as it is shown tells a date alone from a midnight, for the cell's style decides which it is.
func (s *sheet) stage(im *importing, p *part) error {
	rows, err := source.SheetRows(s.book, &p.Table)
	if err != nil {
		return err
	}
	defer rows.Close()
	out, err := source.NewStagingFile(im.dir, len(p.Header))
	if err != nil {
		return err
	}
	isMoment := make([]bool, len(p.Header))
	for name, place := range p.places {
		isMoment[place] = p.kind.Column(name).IsMoment()
	}
	pastHeader := false
	for rows.Next() {
		cells, shown, err := rows.Cells()
		if err != nil {
			return p.Refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		if !pastHeader {
			pastHeader = len(source.TrimmedCells(cells)) > 0
			continue
		}
		for i := range min(len(cells), len(isMoment), len(shown)) {
			if isMoment[i] {
				cells[i] = source.MomentText(cells[i], shown[i], s.date1904)
			}
		}
		if err := out.Add(rows.Line, source.Padded(cells, len(p.Header)), ""); err != nil {
			return err
		}
	}
	if rows.Err() != nil {
		return p.Refuse("cannot be read: the workbook is damaged", "open it, save it as XLSX, and try again")
	}
	for _, remark := range source.CellRemarks(s.book, &p.Table, p.identifiers(), asStored) {
		im.notice("%s", remark)
	}
	return im.load(out, p)
}

// asStored is how a number is read that is no moment.
func asStored(raw, _ string) string { return raw }

// identifiers are the columns of the header, from 0, that identify something.
func (p *part) identifiers() map[int]string {
	ids := map[int]string{}
	for name, place := range p.places {
		if p.kind.Column(name).Identifier {
			ids[place] = name
		}
	}
	return ids
}
