package record

import (
	"crypto/sha256"
	"encoding/hex"
	"path"
	"regexp"
	"strings"
	"unicode"
)

// nameLength is the most bytes of a name that go into a file's name; file systems take 255.
const nameLength = 80

// Names that Windows keeps for devices, whatever their ending.
var reserved = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$)(\..*)?$`)

// SafeName turns any text into a name that every file system takes and that shows what it is: letters, digits, dots,
// hyphens and underscores stay. A name that had to be changed gets eight digits of its hash at the end, so that two
// names stay two; its ending stays the ending.
func SafeName(text string) string {
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
