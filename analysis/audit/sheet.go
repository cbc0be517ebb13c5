package audit

import (
	"fmt"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/xlsx"
)

// sheet writes one table into the workbook; where a sheet is full, the table goes on in a next one.
type sheet struct {
	book    *workbook
	table   string
	columns []record.Column
	stream  *excelize.StreamWriter
	part    int // 1, 2 …
	row     int // last row written, the header being row 1
}

func (w *workbook) sheet(table string, columns []record.Column) (*sheet, error) {
	s := &sheet{book: w, table: table, columns: columns}
	return s, s.next()
}

// name is the table's name, with a number from the second sheet on.
func (s *sheet) name() string {
	name := strings.ReplaceAll(s.table, "_", " ")
	if s.part > 1 {
		name = fmt.Sprintf("%s %d", name, s.part)
	}
	return name
}

// next begins a sheet with its header.
func (s *sheet) next() error {
	s.part++
	if err := s.book.prepare(s.name(), s.columns); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	stream, err := s.book.file.NewStreamWriter(s.name())
	if err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	s.stream, s.row = stream, 1
	header := make([]any, len(s.columns))
	for i, c := range s.columns {
		header[i] = excelize.Cell{StyleID: s.book.head, Value: c.Name}
		if err := stream.SetColWidth(i+1, i+1, width(c.Name)); err != nil {
			return fmt.Errorf("workbook: %w", err)
		}
	}
	// shop and job_no stay in sight, as does the header
	err = stream.SetPanes(&excelize.Panes{
		Freeze: true, XSplit: 2, YSplit: 1, TopLeftCell: "C2", ActivePane: "bottomRight"})
	if err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	return stream.SetRow("A1", header)
}

// widths are of columns whose values are longer than their names, in characters.
var widths = map[string]float64{
	"vin": 20, "reason": 22, "complaint": 40, "insurer": 24, "claim_no": 16, "technician": 14, "system": 20, "kind": 24,
	"class": 16, "subject": 24, "detail": 60, "finding": 20, "procedure": 26, "failure_text": 30, "software_version": 18,
	"equipment": 16, "target": 16, "quantity": 18, "module": 22, "description": 40, "supplier": 20, "brand": 16,
	"part_no": 16, "note": 40, "file_name": 40, "sha256": 66, "found_sha256": 66, "copied_as": 50, "drawn_by": 66,
	"what": 20, "what_was_found": 40, "table": 16, "column": 24, "meaning": 90, "date_only": 20,
}

// width is a column's width in characters: what its values need, and its name.
func width(name string) float64 {
	if strings.HasSuffix(name, "_at") || name == "at" {
		return 20
	}
	return max(10, float64(len(name)+4), widths[name])
}

// write takes a row; values are as table.each gives them.
func (s *sheet) write(row []any) error {
	if s.row == s.book.limit {
		if err := s.finish(); err != nil {
			return err
		}
		if err := s.next(); err != nil {
			return err
		}
	}
	s.row++
	cells := make([]any, len(row))
	for i, value := range row {
		cells[i] = s.book.cell(value)
	}
	return s.stream.SetRow(fmt.Sprintf("A%d", s.row), cells)
}

// The first day from which a spreadsheet's day numbers are those of the calendar: before it they count a
// 29 February 1900 that never was. Source: ECMA-376 part 1, section 18.17.4.1.
var firstDay = time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC)

func (w *workbook) cell(value any) any {
	switch v := value.(type) {
	case string:
		return xlsx.Text(record.Neutral(v), cutMark)
	case time.Time:
		if v.Before(firstDay) || v.Year() > 9999 {
			return record.Moment(v)
		}
		return excelize.Cell{StyleID: w.Moment, Value: v}
	}
	return value
}

// cutMark ends a text that is longer than a cell.
const cutMark = " … (cut here; the CSV file has the whole text)"

// finish ends a sheet: filters on all columns, what is printed, and its size for the cover.
func (s *sheet) finish() error {
	last, err := excelize.ColumnNumberToName(len(s.columns))
	if err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	if err := s.book.file.AutoFilter(s.name(), fmt.Sprintf("A1:%s%d", last, max(2, s.row)), nil); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	if err := s.stream.Flush(); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	s.book.sheets = append(s.book.sheets, sheetSize{s.name(), s.table, int64(s.row - 1), len(s.columns)})
	if err := s.book.printArea(s.name(), len(s.columns), int64(s.row), true); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	return nil
}
