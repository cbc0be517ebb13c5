package draft

import (
	"fmt"
	"os"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/intake/source"
)

// headOf reads the first rows of the file.
func headOf(file source.Input) ([]source.NumberedRow, *sample, error) {
	dir, err := os.MkdirTemp("", "plumbline-draft-")
	if err != nil {
		return nil, nil, err
	}
	defer os.RemoveAll(dir)
	p := &source.Table{File: file.Name}
	seen := &sample{}
	switch file.Form {
	case "csv", "csv.gz":
		rows, err := headOfText(dir, file, p, seen)
		if p.Encoding != source.UTF8Plain && p.Encoding != "" {
			seen.notices = append(seen.notices, file.Name+": read as "+p.Encoding)
		}
		return rows, seen, err
	case "xlsx":
		rows, err := headOfSheet(p, seen)
		return rows, seen, err
	case "xls":
		return nil, nil, p.Refuse("is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
	}
	return nil, nil, p.Refuse("is no CSV, XLSX or JSON file, which is what a profile reads", "export it as one of these")
}

// headOfText cuts the text as an import of a file without a header does.
func headOfText(dir string, file source.Input, p *source.Table, seen *sample) ([]source.NumberedRow, error) {
	text, err := source.OpenDelimited(dir, file, p)
	if err != nil {
		return nil, err
	}
	in, err := os.Open(text.Path)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	head, err := source.LikeliestCut(in, p)
	seen.width = head.Width
	return head.Rows, err
}

func headOfSheet(p *source.Table, seen *sample) ([]source.NumberedRow, error) {
	book, err := source.OpenWorkbook(p)
	if err != nil {
		return nil, err
	}
	defer book.Close()
	date1904, err := source.IsDate1904(book)
	if err != nil {
		return nil, p.Refuse("cannot be read as a workbook: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	p.Sheet = visibleSheet(book, seen)
	rows, err := source.SheetRows(book, p)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var head []source.NumberedRow
	for rows.Next() && len(head) < source.SampledRows {
		cells, shown, err := rows.Cells()
		if err != nil {
			return nil, p.Refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		for i := range min(len(cells), len(shown)) {
			cells[i] = source.ForeignCell(cells[i], shown[i], date1904)
		}
		head = append(head, source.NumberedRow{Line: int(rows.Line), Cells: cells})
	}
	seen.measure(head)
	hidden, err := source.HiddenColumns(p.File, p.Sheet)
	if err != nil {
		seen.notices = append(seen.notices, "it could not be told which columns are hidden in the sheet")
	}
	seen.hidden = source.ColumnsWithin(hidden, seen.width)
	return head, nil
}

// measure finds how wide a sheet is that no row gives names to.
func (s *sample) measure(rows []source.NumberedRow) {
	for _, row := range rows {
		if width := len(source.TrimmedCells(row.Cells)); width <= source.MostColumns {
			s.width = max(s.width, width)
		}
	}
}

// visibleSheet is the first sheet that is shown; the others are told.
func visibleSheet(book *excelize.File, seen *sample) string {
	for _, name := range book.GetSheetList() {
		visible, err := book.GetSheetVisible(name)
		switch {
		case err != nil || !visible:
			seen.notices = append(seen.notices, fmt.Sprintf("the sheet %q is hidden and was not looked at; name it with sheet in the profile if it holds records", name))
		case seen.sheet == "":
			seen.sheet = name
		default:
			seen.notices = append(seen.notices, fmt.Sprintf("the sheet %q was not looked at; name it with sheet in the profile", name))
		}
	}
	return seen.sheet
}
