package intake

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"plumbline/analysis/history"
)

// profiledFile takes a file of another program through the profile: its rows are staged once as text, and each record
// of the profile is a select over them.
func (im *importing) profiledFile(file input) error {
	p := &part{file: file.name, bytes: file.bytes}
	staged, err := im.openForeign(file, p)
	if err != nil {
		return err
	}
	if err := staged.load(im, p); err != nil {
		return err
	}
	if err := im.layForeignRows(p); err != nil {
		return err
	}
	for i, record := range im.profile.Records {
		one := *p
		one.kind = KindNamed(record.Kind)
		one.source = &mapped{profile: im.profile, record: record, source: p.header}
		one.places = map[string]int{}
		for at, column := range one.kind.Columns {
			if _, ok := record.Fields[column.Name]; ok {
				one.places[column.Name] = at
			}
		}
		if err := im.enter(&one); err != nil {
			return err
		}
		if i == 0 { // a row of a wrong shape is set aside once, not once a record
			if err := im.run(&one, "delete from foreign_rows where misshapen is not null", nil); err != nil {
				return err
			}
		}
	}
	return nil
}

// openForeign reads the file's header and writes its rows to a staging file.
func (im *importing) openForeign(file input, p *part) (*stagingFile, error) {
	switch file.form {
	case "csv", "csv.gz":
		return im.foreignText(file, p)
	case "xlsx":
		return im.foreignSheet(p)
	}
	return nil, p.refuse("is no CSV or XLSX file, which is what a profile reads", "export it as one of these")
}

func (im *importing) foreignText(file input, p *part) (*stagingFile, error) {
	source, err := im.openDelimited(file, p)
	if err != nil {
		return nil, err
	}
	if p.encoding != utf8Plain {
		im.notice("%s: read as %s", p.file, p.encoding)
	}
	in, err := os.Open(source.path)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	lex, err := headerAt(source.path, in, int64(im.profile.Source.HeaderRow), p)
	if err != nil {
		return nil, err
	}
	out, err := im.newStagingFile(len(p.header))
	if err != nil {
		return nil, err
	}
	for {
		err := lex.next()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, lexerRefusal(p, err, lex.start)
		}
		var fields []string
		for _, field := range lex.fields {
			fields = append(fields, string(field))
		}
		if err := out.add(lex.start, fields, lex.misshapen(len(p.header))); err != nil {
			return nil, err
		}
	}
}

// headerAt reads up to and with the record on the header's line, with the delimiter that cuts it into most fields.
func headerAt(path string, in io.ReadSeeker, line int64, p *part) (*lexer, error) {
	var best byte
	for _, delimiter := range delimiters {
		if _, err := in.Seek(0, io.SeekStart); err != nil {
			return nil, err
		}
		lex := newLexer(in, delimiter)
		if err := skipTo(lex, line); err != nil {
			return nil, p.refuse(fmt.Sprintf("has no header in line %d", line), "mend header_row in the profile")
		}
		if len(lex.fields) > len(p.header) {
			best, p.header = delimiter, nil
			for _, field := range lex.fields {
				p.header = append(p.header, strings.TrimSpace(string(field)))
			}
		}
	}
	if len(p.header) > mostColumns {
		return nil, p.refuse(fmt.Sprintf("has %d columns", len(p.header)), "give a file of records")
	}
	if _, err := in.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	lex := newLexer(in, best)
	return lex, skipTo(lex, line)
}

func skipTo(lex *lexer, line int64) error {
	for {
		if err := lex.next(); err != nil || lex.start >= line {
			return err
		}
	}
}

// layForeignRows makes foreign_rows from the staged rows: cells carried down, rows that are no records left out, and
// each row whole for the case that it is set aside.
func (im *importing) layForeignRows(p *part) error {
	m := &mapped{profile: im.profile, source: p.header, params: history.Params{}}
	carried := map[int]bool{}
	for _, name := range im.profile.Source.FillDown {
		cell, err := m.cell(name)
		if err != nil {
			return err
		}
		place, _ := strconv.Atoi(strings.TrimPrefix(cell, "foreign_rows.c"))
		carried[place] = true
	}
	columns := make([]string, len(p.header))
	for i := range columns {
		if columns[i] = fmt.Sprintf("c%d", i+1); carried[i+1] {
			columns[i] = fmt.Sprintf("last_value(read_text(c%[1]d) ignore nulls) over (order by line) as c%[1]d", i+1)
		}
	}
	condition := "true"
	for _, test := range im.profile.Source.Skip {
		cell, err := m.cell(test.Column)
		if err != nil {
			return err
		}
		condition += fmt.Sprintf(" and not regexp_matches(coalesce(read_rows.%s, ''), %s)",
			strings.TrimPrefix(cell, "foreign_rows."), m.bind(test.Matches))
	}
	return im.runAs("profile "+im.profile.Name, fmt.Sprintf(`create or replace temporary table foreign_rows as
select line, found, misshapen, %s as fields, %s
from read_rows
where %s
order by line`, p.wholeRow(), strings.Join(columns, ", "), condition), m.params)
}
