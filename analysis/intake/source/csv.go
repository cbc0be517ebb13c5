package source

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"plumbline/analysis/layout"
)

// delimiters are those that are looked for, the likeliest first.
var delimiters = []byte{',', ';', '\t', '|'}

// Delimited is the source of a part in a text file.
type Delimited struct {
	Path       string // UTF-8 without a mark
	Delimiter  byte
	Records    int64 // lines after the first: there are no more records than that
	HasLong    bool  // see textScan
	HasOffsets bool  // likewise
}

// OpenDelimited finds the encoding and, where it is not plain UTF-8, makes a plain copy.
func OpenDelimited(dir string, file Input, p *Table) (*Delimited, error) {
	path := file.Name
	sum := ""
	if file.Form == "csv.gz" {
		var err error
		if sum, err = Hashed(path, nil); err != nil {
			return nil, err
		}
		if path, err = unzipped(dir, path); err != nil {
			return nil, p.Refuse("is compressed, and damaged", "export it again")
		}
	}
	scan := &TextScan{}
	plainSum, err := Hashed(path, scan)
	if err != nil {
		return nil, err
	}
	if p.SHA256 = sum; sum == "" {
		p.SHA256 = plainSum
	}
	if p.Encoding, err = scan.Encoding(); err != nil {
		return nil, p.Refuse(err.Error(), "save it as CSV in UTF-8")
	}
	if scan.innerMark && p.Encoding == UTF8Plain {
		p.Encoding = utf8Joined
	}
	if p.Encoding != UTF8Plain {
		if path, scan, err = PlainCopy(dir, path, p.Encoding); err != nil {
			return nil, p.Refuse("cannot be read as "+p.Encoding, "save it as CSV in UTF-8")
		}
	}
	return &Delimited{Path: path, Records: scan.Lines() - 1, HasLong: scan.hasLong, HasOffsets: scan.hasOffsets}, nil
}

// Lines counts the physical lines.
func (s *TextScan) Lines() int64 {
	ends, end := s.feeds, byte('\n')
	if ends == 0 {
		ends, end = s.returns, '\r'
	}
	if s.last != end {
		ends++
	}
	return ends
}

// PlainCopy writes the file as UTF-8 without a mark.
func PlainCopy(dir, path, encoding string) (string, *TextScan, error) {
	in, err := os.Open(path)
	if err != nil {
		return "", nil, err
	}
	defer in.Close()
	copied, scan, err := Temporary(dir, decoded(in, encoding))
	if err == nil && (scan.hasNUL || scan.invalid) {
		err = fmt.Errorf("holds NUL characters")
	}
	return copied, scan, err
}

func unzipped(dir, path string) (string, error) {
	in, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer in.Close()
	unzip, err := gzip.NewReader(in)
	if err != nil {
		return "", err
	}
	copied, _, err := Temporary(dir, unzip)
	return copied, err
}

// Temporary writes a stream to a temporary file in the folder.
func Temporary(dir string, in io.Reader) (string, *TextScan, error) {
	out, err := os.CreateTemp(dir, "*.csv")
	if err != nil {
		return "", nil, err
	}
	defer out.Close()
	scan := &TextScan{}
	if _, err := io.Copy(io.MultiWriter(out, scan), in); err != nil {
		return "", nil, err
	}
	return filepath.Clean(out.Name()), scan, out.Close()
}

// FindHeader reads the first record with the delimiter that makes the most of it: the most names of the layout, and
// of equal ones the most fields.
func (d *Delimited) FindHeader() ([]string, error) {
	var best []string
	bestKnown := -1
	for _, delimiter := range delimiters {
		header, err := firstRecord(d.Path, delimiter)
		if errors.Is(err, errTooLong) && best != nil {
			continue // a line without this delimiter is one long field
		}
		if err != nil {
			return nil, err
		}
		known := layoutNames(header)
		if known > bestKnown || (known == bestKnown && len(header) > len(best)) {
			best, bestKnown, d.Delimiter = header, known, delimiter
		}
	}
	return best, nil
}

func firstRecord(path string, delimiter byte) ([]string, error) {
	in, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	lex := NewLexer(in, delimiter)
	if err := lex.Next(); err != nil {
		return nil, err
	}
	header := make([]string, len(lex.Fields))
	for i, field := range lex.Fields {
		header[i] = strings.TrimSpace(string(bytes.ToValidUTF8(field, []byte("?"))))
	}
	for len(header) > 1 && header[len(header)-1] == "" {
		header = header[:len(header)-1]
	}
	return header, nil
}

// layoutNames counts the names that some kind of record has.
func layoutNames(header []string) int {
	known := 0
	for _, name := range header {
		for i := range layout.Kinds {
			if layout.Kinds[i].Column(layout.PlainName(name)) != nil {
				known++
				break
			}
		}
	}
	return known
}
