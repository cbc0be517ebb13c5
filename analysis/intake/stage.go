package intake

import (
	"fmt"
	"io"
	"os"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
)

// load puts the file's rows into read_rows.
func (im *importing) load(s *source.StagingFile, p *part) error {
	path, err := s.Close()
	if err != nil {
		return err
	}
	if s.Rows == 0 {
		return im.runAs("staging", emptyRows(s.Width), nil)
	}
	taken, err := im.h.Run(im.ctx, history.Statement{Name: "staging", SQL: fmt.Sprintf(
		"create or replace temporary table read_rows as select * from read_csv($file, auto_detect=false, header=false, "+
			"delim=',', quote='\"', escape='\"', max_line_size=%d, buffer_size=%d, columns={'line': 'bigint', 'found': 'integer', "+
			"'misshapen': 'varchar', 'surplus': 'varchar', %s})", 2*source.MostBytes+100_000, 4*source.MostBytes+200_000, textColumns(s.Width))},
		history.Params{"file": path})
	if err != nil {
		return err
	}
	if taken != s.Rows {
		return fmt.Errorf("%s: %d of %d rows were staged; this is a defect of plumbline, please report it", p.Name(), taken, s.Rows)
	}
	return os.Remove(path)
}

// emptyRows makes read_rows without rows.
func emptyRows(width int) string {
	columns := make([]string, width)
	for i := range columns {
		columns[i] = fmt.Sprintf("null::varchar as c%d", i+1)
	}
	return "create or replace temporary table read_rows as select null::bigint as line, null::integer as found, " +
		"null::varchar as misshapen, null::varchar as surplus, " + strings.Join(columns, ", ") + " limit 0"
}

// delimitedRows are the rows of a text file.
type delimitedRows struct{ *source.Delimited }

// stage reads the file with our own lexer, which knows physical lines and keeps rows of a wrong shape.
func (d delimitedRows) stage(im *importing, p *part) error {
	in, err := os.Open(d.Path)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := source.NewStagingFile(im.dir, len(p.Header))
	if err != nil {
		return err
	}
	lex := source.NewLexer(in, d.Delimiter)
	if err := lex.Next(); err != nil {
		return err
	}
	var fields []string
	for {
		err := lex.Next()
		if err == io.EOF {
			return im.load(out, p)
		}
		if err != nil {
			return source.LexerRefusal(&p.Table, err, lex.Start)
		}
		fields = fields[:0]
		for _, field := range lex.Fields {
			fields = append(fields, string(field))
		}
		if err := out.Add(lex.Start, fields, out.Misshapen(lex)); err != nil {
			return err
		}
	}
}
