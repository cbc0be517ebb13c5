package source

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// text writes the rows of a delimited file to a staging file.
func (r Reader) text(file Input, p *Table) (*StagingFile, error) {
	text, err := OpenDelimited(r.Dir, file, p)
	if err != nil {
		return nil, err
	}
	if p.Encoding != UTF8Plain {
		r.Notice("%s: read as %s", p.File, p.Encoding)
	}
	in, err := os.Open(text.Path)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	lex, err := r.belowHeader(in, p)
	if err != nil {
		return nil, err
	}
	out, err := NewStagingFile(r.Dir, len(p.Header))
	if err != nil {
		return nil, err
	}
	if p.Headless {
		out.asIn = "most rows have"
	}
	for {
		err := lex.Next()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, LexerRefusal(p, err, lex.Start)
		}
		if err := out.Add(lex.Start, lex.Texts(), out.Misshapen(lex)); err != nil {
			return nil, err
		}
	}
}

// belowHeader settles the names of the columns, and gives a lexer that stands before the first row.
func (r Reader) belowHeader(in io.ReadSeeker, p *Table) (*lexer, error) {
	if len(r.Lines) > 0 {
		return headerAt(in, r.Lines, p)
	}
	return headlessAt(in, p)
}

// Texts gives the fields of the record read last as texts of their own.
func (l *lexer) Texts() []string {
	fields := make([]string, len(l.Fields))
	for i, field := range l.Fields {
		fields[i] = string(field)
	}
	return fields
}

// headerAt reads up to and with the header's last line, with the delimiter that cuts it into most fields.
func headerAt(in io.ReadSeeker, lines []int, p *Table) (*lexer, error) {
	var best byte
	var failed error
	var failedAt int64
	for _, delimiter := range delimiters {
		if _, err := in.Seek(0, io.SeekStart); err != nil {
			return nil, err
		}
		lex := NewLexer(in, delimiter)
		header, err := readHeader(lex, lines)
		if err != nil {
			failed, failedAt = err, lex.Start
		} else if len(header) > len(p.Header) {
			best, p.Header = delimiter, header
		}
	}
	switch {
	case len(p.Header) == 0 && failed != nil && failed != io.EOF:
		return nil, LexerRefusal(p, failed, failedAt)
	case len(p.Header) == 0:
		return nil, p.Refuse(fmt.Sprintf("has no header in line %d", lines[len(lines)-1]), "mend header_row in the profile")
	case len(p.Header) > MostColumns:
		return nil, p.Refuse(fmt.Sprintf("has %d columns", len(p.Header)), "give a file of records")
	}
	if _, err := in.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	lex := NewLexer(in, best)
	_, err := readHeader(lex, lines)
	return lex, err
}

// readHeader reads the records on the header's lines and joins them. A file of rejects has its header in the first line,
// wherever the file had it that they came from.
func readHeader(lex *lexer, lines []int) ([]string, error) {
	rows := make([][]string, len(lines))
	for first := true; ; first = false {
		if err := lex.Next(); err != nil {
			return nil, err
		}
		fields := lex.Texts()
		if first && IsRejectHeader(fields) {
			return TrimmedCells(fields), nil
		}
		at := slices.Index(lines, int(lex.Start))
		if last := len(lines) - 1; at < 0 && lex.Start > int64(lines[last]) {
			at = last // the line itself is blank, or within a record
		}
		if at >= 0 {
			rows[at] = fields
		}
		if at == len(lines)-1 {
			return JoinedHeader(rows), nil
		}
	}
}

// JoinedHeader makes one name a column of several rows. In all but the last a name goes on to the right up to the next,
// as a group does over its columns.
func JoinedHeader(rows [][]string) []string {
	width := 0
	for _, row := range rows {
		width = max(width, len(row))
	}
	names := make([]string, width)
	for at, row := range rows {
		carried := ""
		for i := range names {
			cell := ""
			if i < len(row) {
				cell = strings.TrimSpace(row[i])
			}
			if at < len(rows)-1 {
				if cell != "" {
					carried = cell
				}
				cell = carried
			} else if cell == "" && i >= len(row) {
				names[i] = ""
				continue
			}
			if cell != "" && !strings.EqualFold(cell, names[i]) {
				names[i] = strings.TrimSpace(names[i] + " " + cell)
			}
		}
	}
	return TrimmedCells(names)
}
