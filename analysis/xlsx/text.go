package xlsx

import (
	"fmt"
	"strings"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"
)

// Text makes a text one that a cell can hold: it shows the characters that XML has no place for by their code, and cuts
// what is longer than a cell, in UTF-16 units; mark then stands at the end.
func Text(text, mark string) string {
	if strings.ContainsFunc(text, noXML) {
		text = strings.NewReplacer(codes...).Replace(text)
	}
	if len(text) <= excelize.TotalCellChars {
		return text
	}
	units := utf16.Encode([]rune(text))
	if len(units) <= excelize.TotalCellChars {
		return text
	}
	return string(utf16.Decode(units[:excelize.TotalCellChars-len(utf16.Encode([]rune(mark)))])) + mark
}

// noXML tells the characters that XML 1.0 cannot hold (section 2.2).
func noXML(r rune) bool {
	return r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == '\ufffe' || r == '\uffff'
}

// codes pairs each of them with what is shown instead.
var codes = func() (pairs []string) {
	for r := range rune(0x10000) {
		if noXML(r) {
			pairs = append(pairs, string(r), fmt.Sprintf("[U+%04X]", r))
		}
	}
	return pairs
}()
