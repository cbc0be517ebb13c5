package intake

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A part is one kind of record in one file, ready to be staged.
type part struct {
	source.Table
	kind   *layout.Kind
	places map[string]int // the layout's columns, by their number in the header from 0
	source rows
}

// Rows put the rows of a part into the temporary table read_rows.
//
// Its columns: line (physical line or row number), found (how many fields the row had), misshapen (why it is no row
// of this file, or null), surplus (fields beyond the header, separated by chr(31), or null), and c1, c2 … as read.
type rows interface {
	stage(im *importing, p *part) error
}

// settleHeader finds the layout's columns in the header. It gives the names that the layout does not know.
func (p *part) settleHeader() ([]string, error) {
	p.places = map[string]int{}
	var unknown []string
	for i, name := range p.Header {
		plain := layout.PlainName(name)
		_, twice := p.places[plain]
		switch {
		case plain == "" || slices.Contains(source.RejectColumns, plain) || p.isOurs(plain):
		case p.kind.Column(plain) == nil:
			unknown = append(unknown, name)
		case twice:
			return nil, p.Refuse(fmt.Sprintf("has the column %s twice", plain), "take one of the two out")
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
	return p.Refuse("lacks the "+noun+" "+strings.Join(missing, ", ")+", which "+p.kind.Name+" must have",
		"add "+it+", or describe the file in a mapping profile: plumbline profile "+p.File)
}

// placeOf is how messages call a line of the part.
func (p *part) placeOf(line int64) string {
	return source.Fault{File: p.File, Sheet: p.Sheet, Line: line}.Place()
}
