package intake

import (
	"fmt"
	"slices"
	"strings"
)

// mostColumns is how wide a file may be; a wider one is no file of records.
const mostColumns = 1000

// A part is one kind of record in one file, ready to be staged.
type part struct {
	file, sheet string
	encoding    string
	sha256      string
	bytes       int64
	kind        *Kind
	header      []string       // the source's own column names
	headless    bool           // no row names the columns, and header numbers them
	places      map[string]int // the layout's columns, by their number in the header from 0
	source      source
}

// A source puts the rows of a part into the temporary table read_rows.
//
// Its columns: line (physical line or row number), found (how many fields the row had), misshapen (why it is no row
// of this file, or null), surplus (fields beyond the header, separated by chr(31), or null), and c1, c2 … as read.
type source interface {
	stage(im *importing, p *part) error
}

// plainName brings a header's or file's name into the form of the layout's names.
func plainName(name string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '\u00a0' {
			return '_'
		}
		return r
	}, strings.ToLower(strings.TrimSpace(strings.Trim(name, "\u00a0\ufeff \t\r\n"))))
}

// settleHeader finds the layout's columns in the header. It gives the names that the layout does not know.
func (p *part) settleHeader() ([]string, error) {
	p.places = map[string]int{}
	var unknown []string
	for i, name := range p.header {
		plain := plainName(name)
		_, twice := p.places[plain]
		switch {
		case plain == "" || slices.Contains(rejectColumns, plain) || p.isOurs(plain):
		case p.kind.Column(plain) == nil:
			unknown = append(unknown, name)
		case twice:
			return nil, p.refuse(fmt.Sprintf("has the column %s twice", plain), "take one of the two out")
		default:
			p.places[plain] = i
		}
	}
	return unknown, p.refuseIfMissing()
}

func (p *part) refuseIfMissing() error {
	var missing []string
	for _, column := range p.kind.Columns {
		if _, ok := p.places[column.Name]; column.Required && !ok {
			missing = append(missing, column.Name)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	noun, it := "column", "it"
	if len(missing) > 1 {
		noun, it = "columns", "them"
	}
	return p.refuse("lacks the "+noun+" "+strings.Join(missing, ", ")+", which "+p.kind.Name+" must have",
		"add "+it+", or describe the file in a mapping profile: plumbline profile "+p.file)
}

func (p *part) refuse(reason, remedy string) error {
	return &Refusal{Fault{File: p.file, Sheet: p.sheet, Reason: reason, Remedy: remedy}}
}

// name is how messages call the part.
func (p *part) name() string {
	if p.sheet == "" {
		return p.file
	}
	return p.file + " " + p.sheet
}
