package intake

import (
	"context"
	"io"
	"os"
	"strings"

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
		rows, err := im.headOfText(file, p)
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

// headOfText cuts the text with the delimiter that makes the widest row.
func (im *importing) headOfText(file input, p *part) ([]numberedRow, error) {
	source, err := im.openDelimited(file, p)
	if err != nil {
		return nil, err
	}
	var best []numberedRow
	widest := 0
	for _, delimiter := range delimiters {
		in, err := os.Open(source.path)
		if err != nil {
			return nil, err
		}
		lex := newLexer(in, delimiter)
		var rows []numberedRow
		width := 0
		for len(rows) < sampledRows {
			err := lex.next()
			if err == io.EOF {
				break
			}
			if err != nil {
				in.Close()
				return nil, lexerRefusal(p, err, lex.start)
			}
			row := numberedRow{line: int(lex.start)}
			for _, field := range lex.fields {
				row.cells = append(row.cells, strings.TrimSpace(string(field)))
			}
			width = max(width, len(row.cells))
			rows = append(rows, row)
		}
		in.Close()
		if width > widest {
			best, widest = rows, width
		}
	}
	return best, nil
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
	return head, nil
}

// visibleSheet is the first sheet that is shown; the others are told.
func visibleSheet(book *excelize.File, seen *sample) string {
	for _, name := range book.GetSheetList() {
		visible, err := book.GetSheetVisible(name)
		switch {
		case err != nil || !visible:
			seen.notices = append(seen.notices, "the sheet "+name+" is hidden and was not looked at")
		case seen.sheet == "":
			seen.sheet = name
		default:
			seen.notices = append(seen.notices, "the sheet "+name+" was not looked at; name it with sheet in the profile")
		}
	}
	return seen.sheet
}
