package intake

import (
	"context"
	"fmt"
	"os"

	"github.com/xuri/excelize/v2"
)

// A numberedRow is a row with its line.
type numberedRow struct {
	line  int
	cells []string
}

// headOf reads the first rows of the file.
func headOf(ctx context.Context, file input) ([]numberedRow, *sample, error) {
	dir, err := os.MkdirTemp("", "plumbline-draft-")
	if err != nil {
		return nil, nil, err
	}
	defer os.RemoveAll(dir)
	im := &importing{ctx: ctx, dir: dir}
	p := &part{file: file.name}
	seen := &sample{}
	switch file.form {
	case "csv", "csv.gz":
		rows, err := im.headOfText(file, p, seen)
		if p.encoding != utf8Plain && p.encoding != "" {
			seen.notices = append(seen.notices, file.name+": read as "+p.encoding)
		}
		return rows, seen, err
	case "xlsx":
		rows, err := headOfSheet(p, seen)
		return rows, seen, err
	case "xls":
		return nil, nil, p.refuse("is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
	}
	return nil, nil, p.refuse("is no CSV or XLSX file, which is what a profile reads", "export it as one of these")
}

// headOfText cuts the text as an import of a file without a header does.
func (im *importing) headOfText(file input, p *part, seen *sample) ([]numberedRow, error) {
	source, err := im.openDelimited(file, p)
	if err != nil {
		return nil, err
	}
	in, err := os.Open(source.path)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	head, err := likeliestCut(in, p)
	seen.width = head.width
	return head.rows, err
}

func headOfSheet(p *part, seen *sample) ([]numberedRow, error) {
	book, err := openWorkbook(p)
	if err != nil {
		return nil, err
	}
	defer book.Close()
	date1904, err := isDate1904(book)
	if err != nil {
		return nil, p.refuse("cannot be read as a workbook: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	p.sheet = visibleSheet(book, seen)
	rows, err := sheetRows(book, p)
	if err != nil {
		return nil, err
	}
	defer rows.close()
	var head []numberedRow
	for rows.next() && len(head) < sampledRows {
		cells, shown, err := rows.cells()
		if err != nil {
			return nil, p.refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
		}
		for i := range min(len(cells), len(shown)) {
			cells[i] = foreignCell(cells[i], shown[i], date1904)
		}
		head = append(head, numberedRow{int(rows.line), cells})
	}
	seen.measure(head)
	hidden, err := hiddenColumns(p.file, p.sheet)
	if err != nil {
		seen.notices = append(seen.notices, "it could not be told which columns are hidden in the sheet")
	}
	seen.hidden = within(hidden, seen.width)
	return head, nil
}

// measure finds how wide a sheet is that no row gives names to.
func (s *sample) measure(rows []numberedRow) {
	for _, row := range rows {
		if width := len(trimmedCells(row.cells)); width <= mostColumns {
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
