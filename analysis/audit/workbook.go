package audit

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/folder"
	"plumbline/analysis/xlsx"
)

// sheetRows is the most rows that a sheet of a workbook holds, its header among them.
const sheetRows = excelize.TotalRows

// workbook writes the bundle's tables as sheets, row by row. It never holds a table in memory.
type workbook struct {
	file                 *excelize.File
	limit                int // rows a sheet, sheetRows but in tests
	title, head, wrapped int // styles
	Moment, share, label int
	sheets               []sheetSize
}

// sheetSize says how much one sheet holds.
type sheetSize struct {
	name    string
	table   string
	rows    int64
	columns int
}

func newWorkbook(limit int, asOf time.Time) (*workbook, error) {
	w := &workbook{file: excelize.NewFile(), limit: limit}
	at := asOf.Format(time.RFC3339)
	err := w.file.SetDocProps(&excelize.DocProperties{
		Creator: "plumbline", Title: "Audit bundle", Created: at, Modified: at})
	if err != nil {
		return nil, fmt.Errorf("workbook: %w", err)
	}
	if err := w.file.SetSheetName("Sheet1", "cover"); err != nil {
		return nil, fmt.Errorf("workbook: %w", err)
	}
	return w, w.makeStyles()
}

func (w *workbook) makeStyles() error {
	dateFormat := "yyyy-mm-dd hh:mm:ss"
	top := &excelize.Alignment{Horizontal: "left", Vertical: "top", WrapText: true}
	bold := func(size float64) *excelize.Font { return &excelize.Font{Bold: true, Size: size, Family: "Calibri"} }
	for _, style := range []struct {
		id   *int
		made excelize.Style
	}{
		{&w.title, excelize.Style{Font: bold(16)}},
		{&w.head, excelize.Style{Font: bold(11), Alignment: top,
			Fill:   excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E7E6E1"}},
			Border: []excelize.Border{{Type: "bottom", Color: "333333", Style: 2}}}},
		{&w.label, excelize.Style{Font: bold(11), Alignment: top}},
		{&w.wrapped, excelize.Style{Alignment: top}},
		{&w.Moment, excelize.Style{CustomNumFmt: &dateFormat, Alignment: &excelize.Alignment{Horizontal: "left"}}},
		{&w.share, excelize.Style{NumFmt: 10, Alignment: &excelize.Alignment{Horizontal: "left"}}},
	} {
		id, err := w.file.NewStyle(&style.made)
		if err != nil {
			return fmt.Errorf("workbook: %w", err)
		}
		*style.id = id
	}
	return nil
}

// pageWidth is how many characters of a table go across one page in landscape and can still be read.
const pageWidth = 190

// prepare makes a sheet ready for print: across as few pages as can be read, its header and its jobs on each.
func (w *workbook) prepare(name string, columns []record.Column) error {
	if _, err := w.file.NewSheet(name); err != nil {
		return err
	}
	var across float64
	for _, c := range columns {
		across += width(c.Name)
	}
	return w.fitPage(name, "landscape", 1+int(across/pageWidth))
}

func (w *workbook) fitPage(name, orientation string, wide int) error {
	fit, high := true, 0
	if err := w.file.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	return w.file.SetPageLayout(name, &excelize.PageLayoutOptions{
		Orientation: &orientation, FitToWidth: &wide, FitToHeight: &high})
}

// printArea names what is printed of a sheet, and the rows that head each page.
func (w *workbook) printArea(name string, columns int, rows int64, repeat bool) error {
	last, err := excelize.ColumnNumberToName(columns)
	if err != nil {
		return err
	}
	quotedName := "'" + strings.ReplaceAll(name, "'", "''") + "'"
	err = w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: name,
		RefersTo: fmt.Sprintf("%s!$A$1:$%s$%d", quotedName, last, rows)})
	if err != nil || !repeat {
		return err
	}
	return w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: name,
		RefersTo: quotedName + "!$A:$B," + quotedName + "!$1:$1"})
}

// save writes the workbook.
func (w *workbook) save(path string) error {
	defer w.file.Close()
	var content bytes.Buffer
	if err := xlsx.Save(w.file, &content); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	return writeFile(path, content.Bytes())
}

// writeFile writes a new file and makes sure that it is on disk.
func writeFile(path string, content []byte) error {
	return folder.NewFile(path, content, os.FileMode(0o644))
}
