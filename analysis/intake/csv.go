package intake

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// delimiters are those that are looked for, the likeliest first.
var delimiters = []byte{',', ';', '\t', '|'}

// delimited is the source of a part in a text file.
type delimited struct {
	path      string // UTF-8 without a mark
	delimiter byte
	records   int64 // lines after the first: there are no more records than that
	hasLong   bool  // see textScan
}

// delimitedFile takes a CSV file.
func (im *importing) delimitedFile(file input) error {
	p := &part{file: file.name, bytes: file.bytes}
	source, err := im.openDelimited(file, p)
	if err != nil {
		return err
	}
	p.source = source
	if p.header, err = source.findHeader(); err != nil {
		return lexerRefusal(p, err, 1)
	}
	if len(p.header) > mostColumns {
		return p.refuse(fmt.Sprintf("has %d columns", len(p.header)), "give a file of records")
	}
	if err := p.settleKind(im.o.Kind); err != nil {
		return err
	}
	if p.encoding != utf8Plain {
		im.notice("%s: read as %s", p.file, p.encoding)
	}
	return im.part(p)
}

// openDelimited finds the encoding and, where it is not plain UTF-8, makes a plain copy.
func (im *importing) openDelimited(file input, p *part) (*delimited, error) {
	path := file.name
	sum := ""
	if file.form == "csv.gz" {
		var err error
		if sum, err = hashed(path, nil); err != nil {
			return nil, err
		}
		if path, err = im.unzipped(path); err != nil {
			return nil, p.refuse("is compressed, and damaged", "export it again")
		}
	}
	scan := &textScan{}
	plainSum, err := hashed(path, scan)
	if err != nil {
		return nil, err
	}
	if p.sha256 = sum; sum == "" {
		p.sha256 = plainSum
	}
	if p.encoding, err = scan.encoding(); err != nil {
		return nil, p.refuse(err.Error(), "save it as CSV in UTF-8")
	}
	if p.encoding != utf8Plain {
		if path, scan, err = im.plainCopy(path, p.encoding); err != nil {
			return nil, p.refuse("cannot be read as "+p.encoding, "save it as CSV in UTF-8")
		}
	}
	return &delimited{path: path, records: scan.lines() - 1, hasLong: scan.hasLong}, nil
}

// lines counts the physical lines.
func (s *textScan) lines() int64 {
	ends, end := s.feeds, byte('\n')
	if ends == 0 {
		ends, end = s.returns, '\r'
	}
	if s.last != end {
		ends++
	}
	return ends
}

// plainCopy writes the file as UTF-8 without a mark.
func (im *importing) plainCopy(path, encoding string) (string, *textScan, error) {
	in, err := os.Open(path)
	if err != nil {
		return "", nil, err
	}
	defer in.Close()
	copied, scan, err := im.temporary(decoded(in, encoding))
	if err == nil && (scan.hasNUL || scan.invalid) {
		err = fmt.Errorf("holds NUL characters")
	}
	return copied, scan, err
}

func (im *importing) unzipped(path string) (string, error) {
	in, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer in.Close()
	unzip, err := gzip.NewReader(in)
	if err != nil {
		return "", err
	}
	copied, _, err := im.temporary(unzip)
	return copied, err
}

// temporary writes a stream to a file of this import.
func (im *importing) temporary(in io.Reader) (string, *textScan, error) {
	out, err := os.CreateTemp(im.dir, "*.csv")
	if err != nil {
		return "", nil, err
	}
	defer out.Close()
	scan := &textScan{}
	if _, err := io.Copy(io.MultiWriter(out, scan), in); err != nil {
		return "", nil, err
	}
	return filepath.Clean(out.Name()), scan, out.Close()
}

// findHeader reads the first record with the delimiter that makes the most of it: the most names of the layout, and
// of equal ones the most fields.
func (d *delimited) findHeader() ([]string, error) {
	var best []string
	bestKnown := -1
	for _, delimiter := range delimiters {
		header, err := firstRecord(d.path, delimiter)
		if errors.Is(err, errTooLong) && best != nil {
			continue // a line without this delimiter is one long field
		}
		if err != nil {
			return nil, err
		}
		known := layoutNames(header)
		if known > bestKnown || (known == bestKnown && len(header) > len(best)) {
			best, bestKnown, d.delimiter = header, known, delimiter
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
	lex := newLexer(in, delimiter)
	if err := lex.next(); err != nil {
		return nil, err
	}
	header := make([]string, len(lex.fields))
	for i, field := range lex.fields {
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
		for i := range Kinds {
			if Kinds[i].Column(plainName(name)) != nil {
				known++
				break
			}
		}
	}
	return known
}
