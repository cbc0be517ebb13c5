package review

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/xuri/excelize/v2"
)

// saved makes one workbook with charts, filters and several sheets, as excelize happens to save it this time.
func saved(t *testing.T) []byte {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	for i := range 4 {
		name := fmt.Sprintf("sheet %d", i)
		if _, err := book.NewSheet(name); err != nil {
			t.Fatal(err)
		}
		if err := book.SetSheetRow(name, "A1", &[]any{"group", "rate"}); err != nil {
			t.Fatal(err)
		}
		if err := book.SetSheetRow(name, "A2", &[]any{"one", 0.25}); err != nil {
			t.Fatal(err)
		}
		err := book.AddChart(name, "D1", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{
			{Name: "'" + name + "'!$B$1", Categories: "'" + name + "'!$A$2", Values: "'" + name + "'!$B$2"}}})
		if err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	if err := book.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestCanonicalWorkbooksOfEqualContentAreEqual(t *testing.T) {
	first, err := Canonical(saved(t))
	if err != nil {
		t.Fatal(err)
	}
	for range 10 {
		again, err := Canonical(saved(t))
		if err != nil || !bytes.Equal(first, again) {
			t.Fatalf("two saves of one workbook differ after the rewrite (%v)", err)
		}
	}
	twice, err := Canonical(first)
	if err != nil || !bytes.Equal(first, twice) {
		t.Errorf("a rewritten workbook changes when it is rewritten (%v)", err)
	}
	book, err := excelize.OpenReader(bytes.NewReader(first))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if got, err := book.GetCellValue("sheet 3", "B2"); err != nil || got != "0.25" {
		t.Errorf("the rewritten workbook says %q (%v)", got, err)
	}
	if _, err := Canonical(first[:len(first)/2]); err == nil {
		t.Error("half a workbook is taken for one")
	}
}
