package source

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
)

// titleRows is how many rows may stand above a header that names the columns looked for.
const titleRows = 50

// NamedRows reads the cells under the columns named, in the order of the names, from a CSV file or from a sheet of a
// workbook. The columns may stand in any order and beside others, below titles; blank rows are passed over.
func NamedRows(path, sheet string, columns []string) (*Table, []NumberedRow, error) {
	p := &Table{File: path}
	content, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return p, nil, p.Refuse("there is no such file", "check its name")
	case err != nil:
		return p, nil, p.Refuse("cannot be read: "+err.Error(), "check its name and your rights")
	}
	var tried [][]NumberedRow
	if FormOf(path) == "xlsx" {
		p.Sheet = sheet
		tried, err = sheetOfRows(p)
	} else {
		tried, err = cutInEachWay(p, content)
	}
	if err != nil {
		return p, nil, err
	}
	for _, rows := range tried {
		if named, found := below(rows, columns); found {
			return p, named, nil
		}
	}
	return p, nil, p.Refuse("has no row that names the columns "+strings.Join(columns, ", "), "give a file that has them")
}

// cutInEachWay gives a text's rows as each delimiter cuts them; one that does not cut it to its end gives none.
func cutInEachWay(p *Table, content []byte) ([][]NumberedRow, error) {
	scan := &TextScan{}
	if _, err := scan.Write(content); err != nil {
		return nil, err
	}
	encoding, err := scan.Encoding()
	if err != nil {
		return nil, p.Refuse(err.Error(), "save it as CSV in UTF-8, or as XLSX")
	}
	text, err := io.ReadAll(decoded(bytes.NewReader(content), encoding))
	if err != nil {
		return nil, p.Refuse("cannot be read as "+encoding, "save it as CSV in UTF-8")
	}
	var tried [][]NumberedRow
	for _, delimiter := range delimiters {
		lex := NewLexer(bytes.NewReader(text), delimiter)
		var rows []NumberedRow
		for err = lex.Next(); err == nil; err = lex.Next() {
			rows = append(rows, NumberedRow{Line: int(lex.Start), Cells: lex.Texts()})
		}
		if err == io.EOF {
			tried = append(tried, rows)
		}
	}
	return tried, nil
}

// sheetOfRows gives the rows of the sheet as they are shown.
func sheetOfRows(p *Table) ([][]NumberedRow, error) {
	book, err := OpenWorkbook(p)
	if err != nil {
		return nil, err
	}
	defer book.Close()
	sheets := book.GetSheetList()
	at := slices.IndexFunc(sheets, func(name string) bool { return strings.EqualFold(name, p.Sheet) })
	if at < 0 {
		return nil, &Refusal{Fault{File: p.File, Reason: (&NoSheet{p.Sheet, sheets}).Error(), Remedy: "name the sheet so"}}
	}
	cells, err := book.GetRows(sheets[at])
	if err != nil {
		return nil, p.Refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	rows := make([]NumberedRow, len(cells))
	for i, row := range cells {
		rows[i] = NumberedRow{Line: i + 1, Cells: row}
	}
	return [][]NumberedRow{rows}, nil
}

// below gives the named cells of the rows below the header.
func below(rows []NumberedRow, columns []string) ([]NumberedRow, bool) {
	for i, header := range rows[:min(len(rows), titleRows)] {
		places := make([]int, len(columns))
		for k, column := range columns {
			places[k] = slices.IndexFunc(header.Cells, func(title string) bool {
				return strings.EqualFold(strings.TrimSpace(title), column)
			})
		}
		if slices.Contains(places, -1) {
			continue
		}
		var named []NumberedRow
		for _, row := range rows[i+1:] {
			cells := make([]string, len(columns))
			for k, place := range places {
				if place < len(row.Cells) {
					cells[k] = strings.TrimSpace(row.Cells[place])
				}
			}
			if slices.ContainsFunc(cells, func(cell string) bool { return cell != "" }) {
				named = append(named, NumberedRow{Line: row.Line, Cells: cells})
			}
		}
		return named, true
	}
	return nil, false
}
