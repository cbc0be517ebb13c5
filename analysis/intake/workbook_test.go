package intake

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

func asWorkbook(t *testing.T, folder string)     { workbookOf(t, folder, false) }
func asWorkbook1904(t *testing.T, folder string) { workbookOf(t, folder, true) }

// workbookOf writes a sheet a kind with real dates and numbers, where the text says the same.
func workbookOf(t *testing.T, folder string, date1904 bool) {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	if err := book.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &date1904}); err != nil {
		t.Fatal(err)
	}
	format := func(code string) int {
		style, err := book.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err != nil {
			t.Fatal(err)
		}
		return style
	}
	day, moment := format("m/d/yyyy"), format("m/d/yyyy hh:mm:ss")
	for _, kind := range smallKinds {
		sheet := strings.ToUpper(kind[:1]) + strings.ReplaceAll(kind[1:], "_", " ")
		if _, err := book.NewSheet(sheet); err != nil {
			t.Fatal(err)
		}
		out, err := book.NewStreamWriter(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for i, row := range smallRows(t, kind) {
			cells := make([]any, len(row))
			for j, field := range row {
				cells[j] = workbookCell(field, date1904, day, moment)
			}
			if err := out.SetRow(fmt.Sprintf("A%d", i+1), cells); err != nil {
				t.Fatal(err)
			}
		}
		if err := out.Flush(); err != nil {
			t.Fatal(err)
		}
	}
	if err := book.SaveAs(filepath.Join(folder, "shop.xlsx")); err != nil {
		t.Fatal(err)
	}
}

// workbookCell makes dates and plain numbers of their texts.
func workbookCell(field string, date1904 bool, day, moment int) any {
	epoch := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	if date1904 {
		epoch = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	for layout, style := range map[string]int{"2006-01-02": day, "2006-01-02 15:04": moment, "2006-01-02 15:04:05": moment} {
		if at, err := time.Parse(layout, field); err == nil {
			return excelize.Cell{StyleID: style, Value: at.Sub(epoch).Hours() / 24}
		}
	}
	if value, err := strconv.ParseFloat(field, 64); err == nil && strconv.FormatFloat(value, 'f', -1, 64) == field {
		return value
	}
	return field
}
