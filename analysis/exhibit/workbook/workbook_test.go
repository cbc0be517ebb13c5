package workbook_test

import (
	"bytes"
	"context"
	"testing"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/workbook"
)

func share(name string, counts ...int64) exhibit.Exhibit {
	t := &exhibit.Table{Columns: []exhibit.Column{{Name: "count", Type: exhibit.Count}, {Name: "n", Type: exhibit.Count},
		{Name: "rate", Type: exhibit.Share, Formula: "{count}/{n}"}, {Name: "so_far", Type: exhibit.Count, Formula: "SUM({count..})"},
		{Name: "part", Type: exhibit.Share, Formula: "{count}/SUM({count:})"}, {Name: "change", Type: exhibit.Change, Formula: "{rate}-0.25"}}}
	sum, all := int64(0), int64(0)
	for _, n := range counts {
		all += n
	}
	var rows [][]any
	for _, n := range counts {
		sum += n
		rows = append(rows, []any{n, int64(4), float64(n) / 4, sum, float64(n) / float64(all), float64(n)/4 - 0.25})
	}
	t.Rows = exhibit.Given(rows...)
	return exhibit.Exhibit{Name: name, Title: name, Sheet: exhibit.Sheet{Name: name, About: "counts"}, Table: t,
		Drawing: &exhibit.Drawing{Title: "drawn", Alt: "bars", Native: true, Up: exhibit.Axis{Column: "count", Scale: exhibit.Names},
			Across: exhibit.Axis{Type: exhibit.Count}, Series: []exhibit.Series{{Column: "n", Look: exhibit.Bars}}}}
}

// A formula in the names of columns becomes one in cells, on its own sheet and from another, and comes to the value that
// stands beside it. A change of shares is in points.
func TestFormulas(t *testing.T) {
	other := exhibit.Exhibit{Name: "sum", Title: "sum", Sheet: exhibit.Sheet{Name: "sum"}, Table: &exhibit.Table{
		Columns: []exhibit.Column{{Name: "all", Type: exhibit.Count, Formula: "SUM({first!count:})"}}, Rows: exhibit.Given([]any{int64(4)})}}
	content, err := workbook.Bytes(context.Background(), workbook.Book{Title: "t", Exhibits: []exhibit.Exhibit{share("first", 1, 3), other}})
	if err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, c := range []struct{ sheet, at, formula, value string }{
		{"first", "C4", "A4/B4", "0.25"}, {"first", "D5", "SUM(A$4:A5)", "4"}, {"first", "E5", "A5/SUM($A$4:$A$5)", "0.75"}, {"first", "F5", "100*(C5-0.25)", "50"},
		{"sum", "A4", "SUM('first'!$A$4:$A$5)", "4"},
	} {
		formula, err := f.GetCellFormula(c.sheet, c.at)
		if err != nil || formula != c.formula {
			t.Errorf("%s %s: formula %q, %v; want %q", c.sheet, c.at, formula, err, c.formula)
		}
		if kept, _ := f.GetCellValue(c.sheet, c.at, excelize.Options{RawCellValue: true}); kept != c.value {
			t.Errorf("%s %s holds %q, want %q", c.sheet, c.at, kept, c.value)
		}
		if worked, err := f.CalcCellValue(c.sheet, c.at, excelize.Options{RawCellValue: true}); err != nil || worked != c.value {
			t.Errorf("%s %s comes to %q, %v; want %q", c.sheet, c.at, worked, err, c.value)
		}
	}
}

// The same exhibits make the same bytes, and an exhibit without a sheet is not in the workbook.
func TestSameBytes(t *testing.T) {
	hidden := share("hidden", 1)
	hidden.Sheet.Name = ""
	make := func() []byte {
		content, err := workbook.Bytes(context.Background(), workbook.Book{Title: "t", Exhibits: []exhibit.Exhibit{share("first", 2, 3), hidden}})
		if err != nil {
			t.Fatal(err)
		}
		return content
	}
	first := make()
	for range 3 {
		if !bytes.Equal(first, make()) {
			t.Fatal("two workbooks of the same exhibits differ")
		}
	}
	f, err := excelize.OpenReader(bytes.NewReader(first))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if sheets := f.GetSheetList(); len(sheets) != 2 || sheets[1] != "first" {
		t.Errorf("sheets %v", sheets)
	}
}
