package intake

import (
	"fmt"
	"strings"

	"plumbline/analysis/history"
)

// columnar is the source of a part in a Parquet file.
type columnar struct{ path string }

// parquetFile takes a Parquet file. Its typed columns are turned into the layout's text and read like any other.
func (im *importing) parquetFile(file input) error {
	p := &part{file: file.name, bytes: file.bytes, source: columnar{file.name}}
	var err error
	if p.sha256, err = hashed(file.name, nil); err != nil {
		return err
	}
	p.header, err = im.h.ColumnNames(im.ctx, history.Statement{Name: "parquet", SQL: "select * from read_parquet($file) limit 0"},
		history.Params{"file": file.name})
	if err != nil {
		return p.refuse("cannot be read as Parquet: it is damaged or something else", "export it again")
	}
	if err := p.settleKind(im.o.Kind); err != nil {
		return err
	}
	return im.part(p)
}

func (c columnar) stage(im *importing, p *part) error {
	names := make([]string, len(p.header))
	texts := make([]string, len(p.header))
	for i := range names {
		names[i] = fmt.Sprintf("c%d", i+1)
		texts[i] = fmt.Sprintf("c%d::varchar as c%d", i+1, i+1)
	}
	err := im.run(p, fmt.Sprintf(`create or replace temporary table read_rows as
select line + 1 as line, %d as found, null::varchar as misshapen, null::varchar as surplus, %s
from read_parquet($file, file_row_number=true) as stored(%s, line)
where concat(%s) <> ''
order by line`, len(names), strings.Join(texts, ", "), strings.Join(names, ", "), strings.Join(names, ", ")),
		history.Params{"file": c.path})
	if err != nil {
		return p.refuse("cannot be read as Parquet: it is damaged or something else", "export it again")
	}
	return nil
}
