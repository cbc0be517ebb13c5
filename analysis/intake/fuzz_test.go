package intake

import (
	"encoding/csv"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/intake/source"
)

// Whatever the text, the lexer ends, its lines rise, and what the standard library's writer writes it reads back.
func FuzzLexer(f *testing.F) {
	for _, seed := range []string{"a,b\n1,2\n", "\"a\"\"b\",c\r\n", "a\rb", "\"open", "\"a\"b,c\n", "\n\n,\n", "a,\"b\r\nc\",d"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		lex := source.NewLexer(strings.NewReader(text), ',')
		last := int64(0)
		for lex.Next() == nil {
			if lex.Start <= last || lex.Line < lex.Start {
				t.Fatalf("record at line %d after line %d", lex.Start, last)
			}
			last = lex.Start
		}
		var written strings.Builder
		row := strings.Split(strings.ReplaceAll(text, "\r", ""), "\x00")
		out := csv.NewWriter(&written)
		if err := out.Write(row); err != nil {
			t.Fatal(err)
		}
		out.Flush()
		if strings.Join(row, "") == "" {
			return
		}
		lex = source.NewLexer(strings.NewReader(written.String()), ',')
		if err := lex.Next(); err != nil && err != io.EOF {
			t.Fatal(err)
		}
		var got []string
		for _, field := range lex.Fields {
			got = append(got, string(field))
		}
		if diff := cmp.Diff(row, got); diff != "" {
			t.Error(diff)
		}
	})
}

// A scan in blocks of any size finds what a scan of the whole finds.
func FuzzTextScan(f *testing.F) {
	f.Add("límite – señal", 3)
	f.Add("\xef\xbb\xbfa,b", 1)
	f.Add("\xe9t\xe9", 2)
	f.Fuzz(func(t *testing.T, text string, size int) {
		if size < 1 || len(text) < 3 {
			return
		}
		whole, parts := &source.TextScan{}, &source.TextScan{}
		whole.Write([]byte(text))
		parts.Write([]byte(text[:3])) // the mark is looked for in the first block
		for rest := text[3:]; rest != ""; rest = rest[min(size, len(rest)):] {
			parts.Write([]byte(rest[:min(size, len(rest))]))
		}
		wholeName, wholeErr := whole.Encoding()
		partsName, partsErr := parts.Encoding()
		if wholeName != partsName || (wholeErr == nil) != (partsErr == nil) || whole.Lines() != parts.Lines() {
			t.Errorf("%s %v, in parts %s %v", wholeName, wholeErr, partsName, partsErr)
		}
	})
}
