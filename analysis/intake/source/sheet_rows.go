package source

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

func TrimmedCells(cells []string) []string {
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
	Line          int64
}

func SheetRows(book *excelize.File, p *Table) (*pairOfRows, error) {
	stored, err := book.Rows(p.Sheet)
	if err != nil {
		return nil, p.Refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	shown, err := book.Rows(p.Sheet)
	if err != nil {
		return nil, p.Refuse("cannot be read: "+err.Error(), "open it, save it as XLSX, and try again")
	}
	return &pairOfRows{stored: stored, shown: shown}, nil
}

func (r *pairOfRows) Next() bool {
	r.Line++
	return r.stored.Next() && r.shown.Next()
}

func (r *pairOfRows) Cells() (stored, shown []string, err error) {
	if stored, err = r.stored.Columns(excelize.Options{RawCellValue: true}); err != nil {
		return nil, nil, err
	}
	shown, err = r.shown.Columns()
	return stored, shown, err
}

func (r *pairOfRows) Err() error   { return errors.Join(r.stored.Error(), r.shown.Error()) }
func (r *pairOfRows) Close() error { return errors.Join(r.stored.Close(), r.shown.Close()) }

// Padded gives a row the header's width: a sheet does not store the empty cells at its end.
func Padded(cells []string, width int) []string {
	for len(cells) < width {
		cells = append(cells, "")
	}
	return cells
}

// MomentText writes a date serial in the layout's form; anything else is left as it is.
//
// Source: ECMA-376 part 1, 18.17.4.1. Days count from 1899-12-30, or from 1904-01-01; in the 1900 system serials below
// 61 lie a day off, for that system has a 29 February 1900.
func MomentText(raw, shown string, date1904 bool) string {
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
