package source

import (
	"archive/zip"
	"encoding/xml"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// A columnRange is columns of a sheet, 1 for the first.
type columnRange struct{ from, to int }

// HiddenColumns lists a sheet's columns that are not shown. It reads no further than the sheet's head, where the workbook
// library would take in all cells to tell it.
//
// Source: ECMA-376 part 1, 18.3.1.13 (col) and 18.2.19 (sheet).
func HiddenColumns(file, sheet string) ([]columnRange, error) {
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
	return hiddenIn(xml.NewDecoder(in))
}

// sheetPart finds the part of the workbook that holds a sheet.
func sheetPart(book *zip.ReadCloser, sheet string) (string, error) {
	var sheets struct {
		All []struct {
			Name string `xml:"name,attr"`
			ID   string `xml:"id,attr"`
		} `xml:"sheets>sheet"`
	}
	var parts struct {
		All []struct {
			ID     string `xml:"Id,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
	for name, into := range map[string]any{"xl/workbook.xml": &sheets, "xl/_rels/workbook.xml.rels": &parts} {
		in, err := book.Open(name)
		if err != nil {
			return "", err
		}
		defer in.Close()
		if err := xml.NewDecoder(in).Decode(into); err != nil {
			return "", fmt.Errorf("%s: %w", name, err)
		}
	}
	for _, one := range sheets.All {
		for _, part := range parts.All {
			if one.Name == sheet && one.ID == part.ID {
				if strings.HasPrefix(part.Target, "/") {
					return part.Target[1:], nil
				}
				return path.Join("xl", part.Target), nil
			}
		}
	}
	return "", fmt.Errorf("there is no part for the sheet %q", sheet)
}

// hiddenIn reads the columns that a sheet describes, which stand before its cells.
func hiddenIn(sheet *xml.Decoder) ([]columnRange, error) {
	var hidden []columnRange
	for {
		token, err := sheet.Token()
		if err == io.EOF {
			return hidden, nil
		}
		if err != nil {
			return nil, err
		}
		start, ok := token.(xml.StartElement)
		switch {
		case !ok:
		case start.Name.Local == "sheetData":
			return hidden, nil
		case start.Name.Local == "col":
			given := map[string]string{}
			for _, attribute := range start.Attr {
				given[attribute.Name.Local] = attribute.Value
			}
			if given["hidden"] != "1" && given["hidden"] != "true" {
				continue
			}
			from, fromErr := strconv.Atoi(given["min"])
			to, toErr := strconv.Atoi(given["max"])
			if fromErr == nil && toErr == nil {
				hidden = append(hidden, columnRange{from, to})
			}
		}
	}
}

// ColumnsWithin lists those of the first so many columns that lie in the ranges, from 0.
func ColumnsWithin(ranges []columnRange, width int) []int {
	var columns []int
	for i := range width {
		for _, one := range ranges {
			if one.from <= i+1 && i+1 <= one.to {
				columns = append(columns, i)
				break
			}
		}
	}
	return columns
}

// HiddenRemarks tell of columns that a person who looks at the sheet does not see.
func HiddenRemarks(p *Table) []string {
	var remarks []string
	hidden, err := HiddenColumns(p.File, p.Sheet)
	if err != nil {
		remarks = append(remarks, p.Name()+": it could not be told which columns are hidden; all were read")
	}
	for _, i := range ColumnsWithin(hidden, len(p.Header)) {
		if name := p.Header[i]; name != "" {
			remarks = append(remarks, fmt.Sprintf("%s: the column %q is hidden; it was read all the same", p.Name(), name))
		}
	}
	return remarks
}
