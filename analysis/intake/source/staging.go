package source

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
)

// Rows takes the rows of a table one after the other; misshapen says why one is no row of it, or is empty.
type Rows interface {
	Add(line int64, fields []string, misshapen string) error
}

// A StagingFile is a text file of the shape of read_rows, for readers whose rows the engine cannot number or take.
type StagingFile struct {
	file   *os.File
	out    *csv.Writer
	Width  int
	record []string
	Rows   int64
}

func NewStagingFile(dir string, width int) (*StagingFile, error) {
	file, err := os.CreateTemp(dir, "staged-*.csv")
	if err != nil {
		return nil, err
	}
	return &StagingFile{file: file, out: csv.NewWriter(file), Width: width, record: make([]string, width+4)}, nil
}

// Add writes one row; misshapen says why it is none, or is empty. A row without any text is none and is left out.
func (s *StagingFile) Add(line int64, fields []string, misshapen string) error {
	if strings.TrimSpace(strings.Join(fields, "")) == "" && misshapen == "" {
		return nil
	}
	for i := range s.Width {
		s.record[i+4] = ""
		if i < len(fields) {
			s.record[i+4] = fields[i]
		}
	}
	surplus := ""
	if len(fields) > s.Width && strings.TrimSpace(strings.Join(fields[s.Width:], "")) != "" {
		surplus = strings.Join(fields[s.Width:], "\x1f")
		if misshapen == "" {
			misshapen = otherWidth(len(fields), s.Width, inHeader)
		}
	}
	s.record[0], s.record[1] = strconv.FormatInt(line, 10), strconv.Itoa(min(len(fields), s.Width))
	s.record[2], s.record[3] = misshapen, surplus
	s.Rows++
	return s.out.Write(s.record)
}

// Close finishes the file and gives its path.
func (s *StagingFile) Close() (string, error) {
	s.out.Flush()
	return s.file.Name(), errors.Join(s.out.Error(), s.file.Close())
}

// Discard leaves the file be.
func (s *StagingFile) Discard() error { return s.file.Close() }

// Where the width of a table comes from, as messages say it.
const (
	inHeader = "the header has"
	inMost   = "most rows have"
)

// Misshapen says why the record read last is no row of this width; surplus fields are judged when it is added.
func (s *StagingFile) Misshapen(l *lexer) string { return misshapen(l, s.Width, inHeader) }

func misshapen(l *lexer, width int, asIn string) string {
	switch {
	case l.Misquoted:
		return "has text after a closing quote"
	case len(l.Fields) < width && len(bytes.TrimSpace(l.text)) > 0:
		return otherWidth(len(l.Fields), width, asIn)
	}
	return ""
}

func otherWidth(found, width int, asIn string) string {
	noun := "fields"
	if found == 1 {
		noun = "field"
	}
	return fmt.Sprintf("has %d %s where %s %d", found, noun, asIn, width)
}

// LexerRefusal refuses a file whose records cannot be told apart.
func LexerRefusal(p *Table, err error, line int64) error {
	switch {
	case errors.Is(err, errOpenQuote):
		return &Refusal{Fault: Fault{File: p.File, Line: line, Reason: "a quote is opened in this record and never closed",
			Remedy: "close it, or double it where it belongs to the text"}}
	case errors.Is(err, errTooLong):
		return &Refusal{Fault: Fault{File: p.File, Line: line, Reason: "the record is longer than a million characters",
			Remedy: "look for a quote that is not closed before it"}}
	case err == io.EOF:
		return p.Refuse("has no header", "the first line must name the columns")
	}
	return fmt.Errorf("read %s: %w", p.File, err)
}
