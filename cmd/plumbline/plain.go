package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// plainWriter shows the characters that would command a terminal, or turn the order of its letters, by their codes. A
// record, a file's name or another program's message may hold them, so everything that is printed goes through it. In
// JSON the code is the character's own escape, and its value stays the same.
type plainWriter struct {
	to   io.Writer
	rest []byte // the first bytes of a character whose others are still to come
}

// Write passes the text on; a character that is cut in two waits for its end.
func (w *plainWriter) Write(p []byte) (int, error) {
	text := p
	if len(w.rest) > 0 {
		text = append(w.rest, p...)
	}
	whole := len(text) - len(unfinished(text))
	w.rest = bytes.Clone(text[whole:])
	if _, err := io.WriteString(w.to, plain(string(text[:whole]))); err != nil {
		return 0, err
	}
	return len(p), nil
}

// unfinished is the end of a text that more bytes could make a character, or a return the end of a line.
func unfinished(text []byte) []byte {
	if bytes.HasSuffix(text, []byte{'\r'}) {
		return text[len(text)-1:]
	}
	for back := 1; back < utf8.UTFMax && back <= len(text); back++ {
		if end := text[len(text)-back:]; utf8.RuneStart(end[0]) {
			if utf8.FullRune(end) {
				return nil
			}
			return end
		}
	}
	return nil
}

// plain writes control and direction characters, and bytes that are no text, as \u202e and \x9b.
func plain(text string) string {
	if utf8.ValidString(text) && !strings.ContainsFunc(text, steers) {
		return text
	}
	var b strings.Builder
	for len(text) > 0 {
		r, size := utf8.DecodeRuneInString(text)
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, `\x%02x`, text[0])
		case steers(r) && !strings.HasPrefix(text, "\r\n"):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
		text = text[size:]
	}
	return b.String()
}

// steers tells control characters (ISO 6429: C0 without tab and line feed, delete, and C1) and those that set the
// direction of text (Unicode Standard Annex 9, table 4: marks, embeddings, overrides and isolates). A return writes over
// its line, but for one that ends it.
func steers(r rune) bool {
	switch {
	case r == '\t' || r == '\n':
		return false
	case r < ' ', r >= 0x7f && r <= 0x9f:
		return true
	}
	return r == 0x061c || r == 0x200e || r == 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}
