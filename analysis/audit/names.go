package audit

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path"
	"regexp"
	"strings"
	"unicode"
)

// nameLength is the most bytes of a name that go into a file's name; file systems take 255.
const nameLength = 80

// Names that Windows keeps for devices, whatever their ending.
var reserved = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$)(\..*)?$`)

// safeName turns any text into a name that every file system takes and that shows what it is: letters, digits, dots,
// hyphens and underscores stay. A name that had to be changed gets eight digits of its hash at the end, so that two
// names stay two; its ending stays the ending.
func safeName(text string) string {
	safe := strings.Map(func(r rune) rune {
		switch {
		case r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)), r == '-', r == '_', r == '.':
			return r
		}
		return '_'
	}, text)
	ending := path.Ext(safe)
	if len(ending) > 8 {
		ending = ""
	}
	stem := strings.TrimLeft(strings.TrimSuffix(safe, ending), ".")
	stem = stem[:min(len(stem), nameLength)]
	isReserved := reserved.MatchString(stem + ending)
	if stem+ending == text && text != "" && !isReserved && !strings.HasSuffix(text, ".") {
		return text
	}
	if isReserved {
		stem = "_" + stem
	}
	digest := sha256.Sum256([]byte(text))
	return stem + "-" + hex.EncodeToString(digest[:4]) + strings.TrimRight(ending, ".")
}

// visible shows the characters that a reader would not see, or that would turn the text around it, by their code:
// control characters, marks of direction and other format characters, but not those that join emoji.
func visible(text string) string {
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
