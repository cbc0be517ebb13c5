package source

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// text reads the rows of a delimited file.
func (r Reader) text(file Input, t *Table) (*ForeignFile, error) {
	text, err := OpenDelimited(r.Dir, file, t)
	if err != nil {
		return nil, err
	}
	if t.Encoding != UTF8Plain {
		r.Notice("%s: read as %s", t.File, t.Encoding)
	}
	in, err := os.Open(text.Path)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	lex, err := r.belowHeader(in, t)
	if err != nil {
		return nil, err
	}
	out, err := r.out(t, len(t.Header))
	if err != nil {
		return nil, err
	}
	asIn := inHeader
	if t.Headless {
		asIn = inMost
	}
	for {
		err := lex.Next()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, LexerRefusal(t, err, lex.Start)
		}
		fault := misshapen(lex, len(t.Header), asIn)
		if fields := lex.Texts(); len(fields) > len(t.Header) && asIn == inMost && strings.TrimSpace(strings.Join(fields[len(t.Header):], "")) != "" && fault == "" {
			fault = otherWidth(len(fields), len(t.Header), asIn)
		}
		if err := out.Add(lex.Start, lex.Texts(), fault); err != nil {
			return nil, err
		}
	}
}

// belowHeader settles the names of the columns, and gives a lexer that stands before the first row. Where the columns that
// are asked for do not stand in the lines given, but in others near the top, those are taken.
func (r Reader) belowHeader(in io.ReadSeeker, t *Table) (*lexer, error) {
	if len(r.Lines) == 0 {
		return headlessAt(in, t)
	}
	lex, err := headerAt(in, r.Lines, t)
	if err == nil && (r.Fits == nil || r.Fits(t.Header)) {
		return lex, nil
	}
	asked := *t
	for _, lines := range shifted(r.Lines) {
		other := asked
		other.Header = nil
		found, otherErr := headerAt(in, lines, &other)
		if otherErr == nil && r.Fits != nil && r.Fits(other.Header) {
			r.tellShift(t, lines)
			t.Header = other.Header
			return found, nil
		}
	}
	if err != nil {
		return nil, err
	}
	t.Header = nil
	return headerAt(in, r.Lines, t)
}

// shiftedWithin is how far down a header is looked for that does not stand where it should.
const shiftedWithin = 30

// shifted are the other lines near the top that a header of so many lines might have.
func shifted(lines []int) [][]int {
	var all [][]int
	for first := 1; first <= shiftedWithin; first++ {
		if first == lines[0] {
			continue
		}
		moved := slices.Clone(lines)
		for i := range moved {
			moved[i] += first - lines[0]
		}
		all = append(all, moved)
	}
	return all
}

func (r Reader) tellShift(t *Table, lines []int) {
	r.Notice("%s: the columns' names are in line %d and not in line %d, as the profile says; they were taken from there",
		t.Name(), lines[len(lines)-1], r.Lines[len(r.Lines)-1])
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
