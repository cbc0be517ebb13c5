package intake

import (
	"cmp"
	"fmt"

	"plumbline/analysis/intake/source"
)

// delimitedFile takes a CSV file.
func (im *importing) delimitedFile(file source.Input) error {
	p := &part{Table: source.Table{File: cmp.Or(file.Shown, file.Name), Bytes: file.Bytes}}
	text, err := source.OpenDelimited(im.dir, file, &p.Table)
	if err != nil {
		return err
	}
	p.source = delimitedRows{text}
	if p.Header, err = text.FindHeader(); err != nil {
		return source.LexerRefusal(&p.Table, err, 1)
	}
	if len(p.Header) > source.MostColumns {
		return p.Refuse(fmt.Sprintf("has %d columns", len(p.Header)), "give a file of records")
	}
	if err := p.settleKind(im.o.Kind); err != nil {
		return err
	}
	if p.Encoding != source.UTF8Plain {
		im.notice("%s: read as %s", p.File, p.Encoding)
	}
	return im.part(p)
}
