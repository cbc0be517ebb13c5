package audit

import (
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// What a spreadsheet cannot hold as a date or whole as a text is written so that nothing is lost or wrong.
// Source for 1 March 1900: ECMA-376 part 1, section 18.17.4.1.
func TestCellsThatDoNotFit(t *testing.T) {
	book := &workbook{Moment: 7}
	if got := book.cell(time.Date(1900, 2, 28, 0, 0, 0, 0, time.UTC)); got != "1900-02-28 00:00:00" {
		t.Errorf("a day before the calendar's fault is %v", got)
	}
	day := time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC)
	if got := book.cell(day); got != (excelize.Cell{StyleID: 7, Value: day}) {
		t.Errorf("1 March 1900 is %v", got)
	}
	long := strings.Repeat("ä", excelize.TotalCellChars+1)
	got := book.cell(long).(string)
	if n := len([]rune(got)); n != excelize.TotalCellChars || !strings.HasSuffix(got, "(cut here; the CSV file has the whole text)") {
		t.Errorf("a text of %d characters is cut to %d", excelize.TotalCellChars+1, n)
	}
	fits := strings.Repeat("ä", excelize.TotalCellChars)
	if book.cell(fits) != fits {
		t.Error("a text that fits is cut")
	}
}
