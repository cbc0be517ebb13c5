package intake

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// foreignText writes the rows of a delimited file to a staging file.
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
	lex, err := im.belowHeader(in, p)
	if err != nil {
		return nil, err
	}
	out, err := im.newStagingFile(len(p.header))
	if err != nil {
		return nil, err
	}
	if p.headless {
		out.asIn = "most rows have"
	}
	for {
		err := lex.next()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, lexerRefusal(p, err, lex.start)
		}
		if err := out.add(lex.start, lex.texts(), out.misshapen(lex)); err != nil {
			return nil, err
		}
	}
}

// belowHeader settles the names of the columns, and gives a lexer that stands before the first row.
func (im *importing) belowHeader(in io.ReadSeeker, p *part) (*lexer, error) {
	if lines := im.profile.Source.headerLines(); len(lines) > 0 {
		return headerAt(in, lines, p)
	}
	return headlessAt(in, p)
}

// texts gives the fields of the record read last as texts of their own.
func (l *lexer) texts() []string {
	fields := make([]string, len(l.fields))
	for i, field := range l.fields {
		fields[i] = string(field)
	}
	return fields
}

// headerAt reads up to and with the header's last line, with the delimiter that cuts it into most fields.
func headerAt(in io.ReadSeeker, lines []int, p *part) (*lexer, error) {
	var best byte
	var failed error
	var failedAt int64
	for _, delimiter := range delimiters {
		if _, err := in.Seek(0, io.SeekStart); err != nil {
			return nil, err
		}
		lex := newLexer(in, delimiter)
		header, err := readHeader(lex, lines)
		if err != nil {
			failed, failedAt = err, lex.start
		} else if len(header) > len(p.header) {
			best, p.header = delimiter, header
		}
	}
	switch {
	case len(p.header) == 0 && failed != nil && failed != io.EOF:
		return nil, lexerRefusal(p, failed, failedAt)
	case len(p.header) == 0:
		return nil, p.refuse(fmt.Sprintf("has no header in line %d", lines[len(lines)-1]), "mend header_row in the profile")
	case len(p.header) > mostColumns:
		return nil, p.refuse(fmt.Sprintf("has %d columns", len(p.header)), "give a file of records")
	}
	if _, err := in.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	lex := newLexer(in, best)
	_, err := readHeader(lex, lines)
	return lex, err
}

// readHeader reads the records on the header's lines and joins them. A file of rejects has its header in the first line,
// wherever the file had it that they came from.
func readHeader(lex *lexer, lines []int) ([]string, error) {
	rows := make([][]string, len(lines))
	for first := true; ; first = false {
		if err := lex.next(); err != nil {
			return nil, err
		}
		fields := lex.texts()
		if first && isRejectHeader(fields) {
			return trimmedCells(fields), nil
		}
		at := slices.Index(lines, int(lex.start))
		if last := len(lines) - 1; at < 0 && lex.start > int64(lines[last]) {
			at = last // the line itself is blank, or within a record
		}
		if at >= 0 {
			rows[at] = fields
		}
		if at == len(lines)-1 {
			return joinedHeader(rows), nil
		}
	}
}

func isRejectHeader(fields []string) bool {
	return len(fields) > len(rejectColumns) && plainName(fields[0]) == rejectColumns[0] && plainName(fields[1]) == rejectColumns[1]
}

// joinedHeader makes one name a column of several rows. In all but the last a name goes on to the right up to the next,
// as a group does over its columns.
func joinedHeader(rows [][]string) []string {
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
	return trimmedCells(names)
}
