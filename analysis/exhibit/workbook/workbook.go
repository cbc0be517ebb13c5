// Package workbook renders exhibits as the sheets of a workbook: values with their formats, a live formula behind every
// derived figure, native charts, filters, print areas. It is the same to the byte for the same exhibits.
package workbook

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/xlsx"
)

// A Book is a cover and the exhibits that have a sheet, in their order.
type Book struct {
	Title    string
	AsOf     *time.Time // dates the workbook: never the clock
	Cover    []Line
	Exhibits []exhibit.Exhibit
	Limit    int // rows a sheet may have; 0: as many as the format holds
}

// A Line is a label of the cover with its value.
type Line struct {
	Label string
	Value any
	Type  exhibit.Type
}

// Bytes makes the workbook.
func Bytes(ctx context.Context, made Book) ([]byte, error) {
	b := &book{Book: made, file: excelize.NewFile(), styles: map[appearance]int{}, grids: map[*exhibit.Table]*grid{}, called: map[string]*grid{}}
	defer b.file.Close()
	if b.Limit == 0 {
		b.Limit = excelize.TotalRows
	}
	if err := b.prepare(); err != nil {
		return nil, err
	}
	sheets := b.layOut()
	for _, s := range sheets {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := b.write(s); err != nil {
			return nil, fmt.Errorf("sheet %s: %w", s.name, err)
		}
	}
	if err := b.cover(); err != nil {
		return nil, fmt.Errorf("sheet %s: %w", coverSheet, err)
	}
	var content bytes.Buffer
	err := xlsx.Save(b.file, &content)
	return content.Bytes(), err
}

// A book is the workbook while it is written.
type book struct {
	Book
	file    *excelize.File
	styles  map[appearance]int
	grids   map[*exhibit.Table]*grid
	called  map[string]*grid // the first table of each exhibit, by the exhibit's name
	written []writtenSheet
}

// A writtenSheet is a line of the cover's contents.
type writtenSheet struct {
	name, about string
	rows        int
}

// prepare dates the workbook, and has the formulas worked out when it is opened.
func (b *book) prepare() error {
	properties := excelize.DocProperties{Creator: "plumbline", LastModifiedBy: "plumbline", Title: b.Title, Language: "en"}
	if b.AsOf != nil {
		properties.Created = b.AsOf.Format(time.RFC3339)
		properties.Modified = properties.Created
	}
	if err := b.file.SetDocProps(&properties); err != nil {
		return err
	}
	if err := b.file.SetAppProps(&excelize.AppProperties{Application: "plumbline"}); err != nil {
		return err
	}
	onLoad := true
	if err := b.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &onLoad}); err != nil {
		return err
	}
	return b.file.SetSheetName("Sheet1", coverSheet)
}
