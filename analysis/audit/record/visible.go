package record

import (
	"fmt"
	"strings"
	"unicode"
)

// Visible shows the characters that a reader would not see, or that would turn the text around it, by their code:
// control characters, marks of direction and other format characters, but not those that join emoji.
func Visible(text string) string {
	var b strings.Builder
	for _, r := range text {
		if r != '\u200d' && r != '\n' && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
			fmt.Fprintf(&b, "[U+%04X]", r)
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}
