package xlsx

import (
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"
)

// Source: XML 1.0, production 2 (characters); the length of a cell is counted in UTF-16 units.
func TestTextFitsACell(t *testing.T) {
	const mark = " … (cut)"
	for text, want := range map[string]string{
		"":                      "",
		"a\tb\nc\rd":            "a\tb\nc\rd",
		"bell\a, \x00, \ufffe.": "bell[U+0007], [U+0000], [U+FFFE].",
		strings.Repeat("ä", excelize.TotalCellChars): strings.Repeat("ä", excelize.TotalCellChars),
	} {
		if got := Text(text, mark); got != want {
			t.Errorf("%.20q becomes %.40q, want %.40q", text, got, want)
		}
	}
	for _, letter := range []string{"ä", "\U0001F527"} { // of one unit, and of two
		got := Text(strings.Repeat(letter, excelize.TotalCellChars+1), mark)
		if n := len(utf16.Encode([]rune(got))); n > excelize.TotalCellChars || !strings.HasSuffix(got, mark) {
			t.Errorf("%s: %d units, ending in %q", letter, n, got[len(got)-20:])
		}
	}
}
