package source

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/runes"
	"golang.org/x/text/transform"
)

// The encodings that are read, by the name that the import says.
const (
	UTF8Plain   = "UTF-8"
	utf8BOM     = "UTF-8 with BOM"
	utf8Joined  = "UTF-8 with BOM inside"
	utf16LE     = "UTF-16 LE"
	utf16BE     = "UTF-16 BE"
	Windows1252 = "Windows-1252"
)

var (
	UTF8Mark = []byte{0xEF, 0xBB, 0xBF}
	bomLE    = []byte{0xFF, 0xFE}
	bomBE    = []byte{0xFE, 0xFF}
)

// undefined1252 are the five bytes that Windows-1252 leaves without a character.
// Source: the WHATWG Encoding Standard's index for windows-1252 maps them to control characters only.
var undefined1252 = []byte{0x81, 0x8D, 0x8F, 0x90, 0x9D}

// A TextScan looks over a file's bytes once, in order: which encoding, how many ends of line, whether it is text.
type TextScan struct {
	bom        string
	started    bool
	invalid    bool // not UTF-8
	undefined  bool // holds a byte that Windows-1252 does not define
	hasNUL     bool
	hasOffsets bool  // what may be a time with an offset stands in it
	innerMark  bool  // a byte-order mark stands inside, where files were joined
	feeds      int64 // line feeds
	run        int   // bytes in whole blocks since the last line feed
	hasLong    bool  // holds a line of a size that the engine's own reader may never come back from
	returns    int64 // carriage returns
	last       byte
	bytes      int64
	unfinished []byte // the start of a character cut by the end of a block
}

// Write takes the next block.
func (s *TextScan) Write(block []byte) (int, error) {
	n := len(block)
	if n == 0 {
		return 0, nil
	}
	if !s.started {
		s.started = true
		s.bom = bomOf(block)
	}
	s.bytes += int64(n)
	s.last = block[n-1]
	s.countFeeds(block)
	s.hasOffsets = s.hasOffsets || hasOffset(block)
	s.returns += int64(bytes.Count(block, []byte{'\r'}))
	if s.bom == utf16LE || s.bom == utf16BE {
		return n, nil
	}
	if at := bytes.LastIndex(block, UTF8Mark); at > 0 || (at == 0 && s.bytes > int64(n)) {
		s.innerMark = true
	}
	s.hasNUL = s.hasNUL || bytes.IndexByte(block, 0) >= 0
	s.undefined = s.undefined || containsAny(block, undefined1252)
	s.checkUTF8(block)
	return n, nil
}

// hasOffset looks for what follows the minutes or seconds of a time with an offset. Whether it is one the engine decides;
// here only the many files that have none are to be told apart without cost.
func hasOffset(block []byte) bool {
	for {
		at := bytes.IndexByte(block, ':')
		if at < 0 || at+3 >= len(block) {
			return false
		}
		switch block[at+3] {
		case 'Z', 'z', '+', '-', '.':
			if isDigit(block[at+1]) && isDigit(block[at+2]) {
				return true
			}
		case ' ':
			if isDigit(block[at+1]) && isDigit(block[at+2]) && at+4 < len(block) && bytes.IndexByte([]byte("Zz+-"), block[at+4]) >= 0 {
				return true
			}
		}
		block = block[at+1:]
	}
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// longRun is how many bytes without a line feed make a file one for our own lexer.
const longRun = 256 << 10

func (s *TextScan) countFeeds(block []byte) {
	feeds := bytes.Count(block, []byte{'\n'})
	s.feeds += int64(feeds)
	s.run += len(block)
	if feeds > 0 {
		s.run = 0
	}
	s.hasLong = s.hasLong || s.run > longRun
}

// checkUTF8 carries a character that lies across two blocks over to the next.
func (s *TextScan) checkUTF8(block []byte) {
	if len(s.unfinished) > 0 {
		block = append(s.unfinished, block...)
		s.unfinished = nil
	}
	tail := len(block)
	for back := 1; back <= 3 && back <= len(block); back++ {
		if c := block[len(block)-back]; c >= 0xC0 {
			if !utf8.FullRune(block[len(block)-back:]) {
				tail = len(block) - back
			}
			break
		}
	}
	s.unfinished = bytes.Clone(block[tail:])
	s.invalid = s.invalid || !utf8.Valid(block[:tail])
}

// Encoding names what the bytes are, or says why they are no text.
func (s *TextScan) Encoding() (string, error) {
	switch {
	case s.bytes == 0:
		return "", fmt.Errorf("is empty")
	case (s.bom == utf16LE || s.bom == utf16BE) && s.bytes%2 != 0:
		return "", fmt.Errorf("is %s and ends within a character, so it is cut short", s.bom)
	case s.bom == utf16LE || s.bom == utf16BE:
		return s.bom, nil
	case s.hasNUL:
		return "", fmt.Errorf("holds NUL bytes, so it is no text file, or UTF-16 without its mark")
	case !s.invalid && len(s.unfinished) == 0:
		if s.bom != "" {
			return s.bom, nil
		}
		return UTF8Plain, nil
	case s.bom != "":
		return "", fmt.Errorf("is marked as UTF-8 and is not")
	case s.undefined:
		return "", fmt.Errorf("is neither UTF-8, UTF-16 nor Windows-1252")
	}
	return Windows1252, nil
}

func bomOf(block []byte) string {
	switch {
	case bytes.HasPrefix(block, UTF8Mark):
		return utf8BOM
	case bytes.HasPrefix(block, bomLE):
		return utf16LE
	case bytes.HasPrefix(block, bomBE):
		return utf16BE
	}
	return ""
}

func containsAny(block, wanted []byte) bool {
	for _, c := range wanted {
		if bytes.IndexByte(block, c) >= 0 {
			return true
		}
	}
	return false
}

// decoded turns a stream of the named encoding into UTF-8 without a mark.
func decoded(in io.Reader, name string) io.Reader {
	decoders := map[string]encoding.Encoding{
		utf8BOM:     unicode.UTF8BOM,
		utf16LE:     unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM),
		utf16BE:     unicode.UTF16(unicode.BigEndian, unicode.ExpectBOM),
		Windows1252: charmap.Windows1252,
	}
	if decoder, ok := decoders[name]; ok {
		in = decoder.NewDecoder().Reader(in)
	}
	// A mark inside comes from files that were joined; it would make a value that looks like another and is not.
	return transform.NewReader(in, runes.Remove(runes.Predicate(func(r rune) bool { return r == '\ufeff' })))
}
