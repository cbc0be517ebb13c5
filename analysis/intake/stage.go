package intake

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"plumbline/analysis/history"
)

// A stagingFile is a text file of the shape of read_rows, for readers whose rows the engine cannot number or take.
type stagingFile struct {
	file   *os.File
	out    *csv.Writer
	width  int
	asIn   string // where the width comes from, as messages say it: the header has, or most rows have
	record []string
	rows   int64
}

func (im *importing) newStagingFile(width int) (*stagingFile, error) {
	file, err := os.CreateTemp(im.dir, "staged-*.csv")
	if err != nil {
		return nil, err
	}
	return &stagingFile{file: file, out: csv.NewWriter(file), width: width, asIn: "the header has", record: make([]string, width+4)}, nil
}

// add writes one row; misshapen says why it is none, or is empty. A row without any text is none and is left out.
func (s *stagingFile) add(line int64, fields []string, misshapen string) error {
	if strings.TrimSpace(strings.Join(fields, "")) == "" && misshapen == "" {
		return nil
	}
	for i := range s.width {
		s.record[i+4] = ""
		if i < len(fields) {
			s.record[i+4] = fields[i]
		}
	}
	surplus := ""
	if len(fields) > s.width && strings.TrimSpace(strings.Join(fields[s.width:], "")) != "" {
		surplus = strings.Join(fields[s.width:], "\x1f")
		if misshapen == "" {
			misshapen = s.otherWidth(len(fields))
		}
	}
	s.record[0], s.record[1] = strconv.FormatInt(line, 10), strconv.Itoa(min(len(fields), s.width))
	s.record[2], s.record[3] = misshapen, surplus
	s.rows++
	return s.out.Write(s.record)
}

// load puts the file's rows into read_rows.
func (s *stagingFile) load(im *importing, p *part) error {
	s.out.Flush()
	if err := errors.Join(s.out.Error(), s.file.Close()); err != nil {
		return err
	}
	if s.rows == 0 {
		return im.run(p, emptyRows(s.width), nil)
	}
	taken, err := im.h.Run(im.ctx, history.Statement{Name: "staging", SQL: fmt.Sprintf(
		"create or replace temporary table read_rows as select * from read_csv($file, auto_detect=false, header=false, "+
			"delim=',', quote='\"', escape='\"', max_line_size=%d, buffer_size=%d, columns={'line': 'bigint', 'found': 'integer', "+
			"'misshapen': 'varchar', 'surplus': 'varchar', %s})", 2*mostBytes+100_000, 4*mostBytes+200_000, textColumns(s.width))},
		history.Params{"file": s.file.Name()})
	if err != nil {
		return err
	}
	if taken != s.rows {
		return fmt.Errorf("%s: %d of %d rows were staged; this is a defect of plumbline, please report it", p.name(), taken, s.rows)
	}
	return os.Remove(s.file.Name())
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

// stage reads the file with our own lexer, which knows physical lines and keeps rows of a wrong shape.
func (d *delimited) stage(im *importing, p *part) error {
	in, err := os.Open(d.path)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := im.newStagingFile(len(p.header))
	if err != nil {
		return err
	}
	lex := newLexer(in, d.delimiter)
	if err := lex.next(); err != nil {
		return err
	}
	var fields []string
	for {
		err := lex.next()
		if err == io.EOF {
			return out.load(im, p)
		}
		if err != nil {
			return lexerRefusal(p, err, lex.start)
		}
		fields = fields[:0]
		for _, field := range lex.fields {
			fields = append(fields, string(field))
		}
		if err := out.add(lex.start, fields, out.misshapen(lex)); err != nil {
			return err
		}
	}
}

// misshapen says why the record read last is no row of this width; surplus fields are judged when it is added.
func (s *stagingFile) misshapen(l *lexer) string {
	switch {
	case l.misquoted:
		return "has text after a closing quote"
	case len(l.fields) < s.width && len(bytes.TrimSpace(l.text)) > 0:
		return s.otherWidth(len(l.fields))
	}
	return ""
}

func (s *stagingFile) otherWidth(found int) string {
	if found == 1 {
		return fmt.Sprintf("has 1 field where %s %d", s.asIn, s.width)
	}
	return fmt.Sprintf("has %d fields where %s %d", found, s.asIn, s.width)
}

// lexerRefusal refuses a file whose records cannot be told apart.
func lexerRefusal(p *part, err error, line int64) error {
	switch {
	case errors.Is(err, errOpenQuote):
		return &Refusal{Fault{File: p.file, Line: line, Reason: "a quote is opened in this record and never closed",
			Remedy: "close it, or double it where it belongs to the text"}}
	case errors.Is(err, errTooLong):
		return &Refusal{Fault{File: p.file, Line: line, Reason: "the record is longer than a million characters",
			Remedy: "look for a quote that is not closed before it"}}
	case err == io.EOF:
		return p.refuse("has no header", "the first line must name the columns")
	}
	return fmt.Errorf("read %s: %w", p.file, err)
}
