package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// saved makes one workbook with charts and several sheets, and saves it.
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
	if err := Save(book, &out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestWorkbooksOfEqualContentAreEqual(t *testing.T) {
	first := saved(t)
	for range 10 {
		if !bytes.Equal(first, saved(t)) {
			t.Fatal("two saves of one workbook differ")
		}
	}
	book, err := excelize.OpenReader(bytes.NewReader(first))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if got, err := book.GetCellValue("sheet 3", "B2"); err != nil || got != "0.25" {
		t.Errorf("the saved workbook says %q (%v)", got, err)
	}
}

// noTime is what an archive's reader makes of a date and time of all zeros: day 0 of month 0 of 1980.
var noTime = time.Date(1980, 0, 0, 0, 0, 0, 0, time.UTC)

// TestPartsStandInOrderWithoutTimes also has every part read to its end, which checks its CRC-32.
func TestPartsStandInOrderWithoutTimes(t *testing.T) {
	content := saved(t)
	archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, part := range archive.File {
		names = append(names, part.Name)
		if !part.Modified.Equal(noTime) {
			t.Errorf("%s has a time: %s", part.Name, part.Modified)
		}
		from, err := part.Open()
		if err != nil {
			t.Fatal(err)
		}
		var read bytes.Buffer
		if n, err := read.ReadFrom(from); err != nil || n == 0 {
			t.Errorf("%s: %d bytes (%v)", part.Name, n, err)
		}
	}
	if len(names) < 10 || names[0] != contentTypes || !slices.IsSorted(names[1:]) {
		t.Errorf("the parts stand in the order %v", names)
	}
}
