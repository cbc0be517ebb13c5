package main

import (
	"bytes"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// TestPlain holds what is shown by its code. Sources: ISO 6429 (the controls), Unicode Standard Annex 9, table 4 (the
// characters that set a direction).
func TestPlain(t *testing.T) {
	for text, want := range map[string]string{
		"R. Stone\tno fault\r\n": "R. Stone\tno fault\r\n",
		"\x1b[2Jgone":            `\u001b[2Jgone`,
		"\u009b31m":              `\u009b31m`,
		"done\rover":             `done\u000dover`,
		"bell\a back\b":          `bell\u0007 back\u0008`,
		"del\x7f":                `del\u007f`,
		"gnp.\u202eexe":          `gnp.\u202eexe`,
		"\u2066a\u2069\u200e":    `\u2066a\u2069\u200e`,
		"\u061cx\u200f":          `\u061cx\u200f`,
		"not text \x9b31m\xff":   `not text \x9b31m\xff`,
		"équipe 車 \u200d":        "équipe 車 \u200d", // a joiner is part of how a name is written
	} {
		if got := plain(text); got != want {
			t.Errorf("%q is shown as %q, expected %q", text, got, want)
		}
	}
}

// TestPlainWriterKnowsNoPieces writes a text in pieces of any size: what arrives is the whole text's.
func TestPlainWriterKnowsNoPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("aé車\u202e\x1b\r\n😀"))).Draw(t, "text")
		var to bytes.Buffer
		w := plainWriter{to: &to}
		text += "\n" // as all that is printed ends
		for rest := []byte(text); len(rest) > 0; {
			n := rapid.IntRange(1, len(rest)).Draw(t, "piece")
			if _, err := w.Write(rest[:n]); err != nil {
				t.Fatal(err)
			}
			rest = rest[n:]
		}
		if diff := cmp.Diff(plain(text), to.String()); diff != "" {
			t.Error(diff)
		}
		if !utf8.Valid(to.Bytes()) {
			t.Errorf("%q is no text", to.String())
		}
	})
}
