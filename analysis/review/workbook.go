package review

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/xlsx"
)

// WriteWorkbook writes a review as one workbook for people who work in spreadsheets: the figures of the pages, with a
// live formula behind every rate, native charts, filters, real dates and numbers. It is the same to the byte for the
// same review.
func WriteWorkbook(ctx context.Context, r Review, path string) error {
	content, err := workbookBytes(ctx, r, excelize.TotalRows)
	if err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	return writeFile(path, content)
}

// workbookBytes makes the workbook; limit is the most rows that a sheet may have.
func workbookBytes(ctx context.Context, r Review, limit int) ([]byte, error) {
	b := &book{file: excelize.NewFile(), limit: limit, title: bookTitle(r.About), styles: map[appearance]int{}}
	defer b.file.Close()
	if err := b.prepare(r.About); err != nil {
		return nil, err
	}
	leaves, err := r.leaves()
	if err != nil {
		return nil, err
	}
	for _, l := range leaves {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := b.write(l); err != nil {
			return nil, fmt.Errorf("sheet %s: %w", l.name, err)
		}
	}
	if err := b.cover(r); err != nil {
		return nil, fmt.Errorf("sheet %s: %w", coverSheet, err)
	}
	var content bytes.Buffer
	if err := xlsx.Save(b.file, &content); err != nil {
		return nil, err
	}
	return content.Bytes(), nil
}

const coverSheet = "Cover"

// A book is the workbook while it is written.
type book struct {
	file    *excelize.File
	limit   int
	title   string
	styles  map[appearance]int
	written []writtenSheet
}

// A writtenSheet is a line of the cover's contents.
type writtenSheet struct {
	name, about string
	rows        int
}

// prepare dates the workbook by the review, never by the clock, and has the formulas worked out when it is opened.
func (b *book) prepare(about About) error {
	properties := excelize.DocProperties{Creator: "plumbline", LastModifiedBy: "plumbline", Title: b.title, Language: "en"}
	if about.Scope.AsOf != nil {
		properties.Created = about.Scope.AsOf.Format(time.RFC3339)
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

func bookTitle(about About) string {
	if about.IsEmpty() {
		return "Quality review"
	}
	return "Quality review of " + monthName(about.Month)
}

// leaves are all sheets but the cover, in their order.
func (r Review) leaves() ([]*leaf, error) {
	if r.About.IsEmpty() {
		leaves := r.recordLeaves()
		return append(leaves, definitionLeaf()), nil
	}
	trends, again := r.trendLeaves(), r.reworkLeaf()
	summary, err := r.summaryLeaf(trends, again)
	if err != nil {
		return nil, err
	}
	systems, err := r.systemLeaf()
	if err != nil {
		return nil, err
	}
	glass, err := r.glassLeaves()
	if err != nil {
		return nil, err
	}
	evidence, err := r.evidenceLeaves()
	if err != nil {
		return nil, err
	}
	var leaves []*leaf
	for _, part := range [][]*leaf{{summary, r.decisionLeaf()}, trends, {r.returnLeaf()}, r.curveLeaves(), {systems, r.failureLeaf(), again},
		r.scanLeaves(), glass, r.groupLeaves(), r.startLeaves(), evidence, {r.findingLeaf()}, r.recordLeaves(), {definitionLeaf()}} {
		leaves = append(leaves, part...)
	}
	return leaves, nil
}
