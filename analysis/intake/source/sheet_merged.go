package source

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"

	"github.com/xuri/excelize/v2"
)

// A mergedRange is cells that a sheet shows as one, 1 for the first.
type mergedRange struct{ column, top, bottom int }

// mergedRanges lists the cells of a sheet that are merged over several rows, by their leftmost column: only the uppermost
// holds what all of them show. It looks for them behind the cells, where the workbook library would take in all cells first.
//
// Source: ECMA-376 part 1, 18.3.1.54 and 18.3.1.55 (mergeCell, mergeCells).
func mergedRanges(file, sheet string) ([]mergedRange, error) {
	book, err := zip.OpenReader(file)
	if err != nil {
		return nil, err
	}
	defer book.Close()
	name, err := sheetPart(book, sheet)
	if err != nil {
		return nil, err
	}
	in, err := book.Open(name)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	tail, err := behindCells(in)
	if err != nil {
		return nil, err
	}
	return mergedIn(xml.NewDecoder(bytes.NewReader(tail)))
}

// behindCells is what a sheet's part says after its cells.
func behindCells(in io.Reader) ([]byte, error) {
	const mark = "sheetData>"
	var kept []byte
	block := make([]byte, 1<<20)
	for {
		n, err := in.Read(block)
		kept = append(kept, block[:n]...)
		if at := bytes.LastIndex(kept, []byte(mark)); at >= 0 {
			kept = kept[at:]
		} else if len(kept) > len(mark) {
			kept = kept[len(kept)-len(mark):]
		}
		if err == io.EOF {
			return kept, nil
		}
		if err != nil {
			return nil, err
		}
	}
}

func mergedIn(decoder *xml.Decoder) ([]mergedRange, error) {
	decoder.Strict = false
	var ranges []mergedRange
	for {
		token, err := decoder.Token()
		if err != nil {
			return ranges, nil // the end, or that of an element that began before
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "mergeCell" {
			continue
		}
		for _, attribute := range start.Attr {
			if attribute.Name.Local != "ref" {
				continue
			}
			first, last, _ := bytes.Cut([]byte(attribute.Value), []byte(":"))
			column, top, err := excelize.CellNameToCoordinates(string(first))
			if err != nil {
				return nil, err
			}
			_, bottom, err := excelize.CellNameToCoordinates(string(last))
			if err == nil && bottom > top {
				ranges = append(ranges, mergedRange{column, top, bottom})
			}
		}
	}
}

// merges carry what merged cells hold down, row by row.
type merges struct {
	ranges []mergedRange
	holds  map[int]string // by the range's place
}

func (m *merges) carry(row []string, line int) []string {
	for i, one := range m.ranges {
		switch {
		case line == one.top && one.column <= len(row):
			if m.holds == nil {
				m.holds = map[int]string{}
			}
			m.holds[i] = row[one.column-1]
		case line > one.top && line <= one.bottom && m.holds[i] != "":
			row = Padded(row, one.column)
			row[one.column-1] = m.holds[i]
		}
	}
	return row
}
