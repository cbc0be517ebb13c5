package source

import (
	"bufio"
	"errors"
	"io"
)

// MostBytes is how long one record may be. Written again with its quotes doubled it still fits the engine's own bound.
const MostBytes = 1_000_000

var (
	errTooLong   = errors.New("record too long")
	errOpenQuote = errors.New("quote never closed")
)

// A lexer cuts delimited text into records, after RFC 4180: fields in quotes may hold delimiters, line breaks and
// doubled quotes. It takes LF, CRLF and CR as ends of line, and counts physical lines, which the engine's reader does
// not tell. A quote inside an unquoted field is kept as it stands.
type lexer struct {
	in        *bufio.Reader
	delimiter byte
	Line      int64 // of the byte read next, from 1

	Fields    [][]byte // of the record read last; overwritten by the next
	Start     int64    // its first line
	Misquoted bool     // it has text after a closing quote
	text      []byte   // all fields of the record one after the other
	ends      []int    // where in text each field ends
}

func NewLexer(in io.Reader, delimiter byte) *lexer {
	return &lexer{in: bufio.NewReaderSize(in, 1<<18), delimiter: delimiter, Line: 1}
}

// Next reads one record; io.EOF at the end. Blank lines are no records.
func (l *lexer) Next() error {
	for {
		if err := l.record(); err != nil {
			return err
		}
		if len(l.ends) > 1 || len(l.text) > 0 {
			l.cut()
			return nil
		}
	}
}

// cut makes the fields from the text and their ends.
func (l *lexer) cut() {
	l.Fields = l.Fields[:0]
	from := 0
	for _, end := range l.ends {
		l.Fields = append(l.Fields, l.text[from:end])
		from = end
	}
}

// record reads up to the end of a record into text and ends.
func (l *lexer) record() error {
	l.text, l.ends, l.Misquoted, l.Start = l.text[:0], l.ends[:0], false, l.Line
	if _, err := l.in.Peek(1); err != nil {
		return err
	}
	for {
		more, err := l.field()
		if err != nil {
			return err
		}
		l.ends = append(l.ends, len(l.text))
		if !more {
			return nil
		}
	}
}

// Field reads one field and says whether another follows in the record.
func (l *lexer) field() (bool, error) {
	isQuoted := l.quoteAhead()
	if isQuoted {
		if err := l.quoted(); err != nil {
			return false, err
		}
	}
	return l.unquoted(isQuoted)
}

// quoteAhead takes blanks before a quote for no part of the field, as the engine's reader does, and reads up to and with
// the quote.
func (l *lexer) quoteAhead() bool {
	for blanks := 0; ; blanks++ {
		ahead, err := l.in.Peek(blanks + 1)
		if err != nil || (ahead[blanks] != ' ' && ahead[blanks] != '"') {
			return false
		}
		if ahead[blanks] == '"' {
			l.in.Discard(blanks + 1)
			return true
		}
	}
}

// quoted reads the inside of quotes, up to and with the closing one.
func (l *lexer) quoted() error {
	for {
		c, err := l.in.ReadByte()
		if err == io.EOF {
			return errOpenQuote
		}
		if err != nil {
			return err
		}
		switch c {
		case '"':
			following, err := l.in.Peek(1)
			if err != nil || following[0] != '"' {
				return nil
			}
			l.in.Discard(1)
		case '\n':
			l.Line++
		case '\r':
			if following, err := l.in.Peek(1); err != nil || following[0] != '\n' {
				l.Line++
			}
		}
		if l.text = append(l.text, c); len(l.text) > MostBytes {
			return errTooLong
		}
	}
}

// unquoted reads up to and with the next delimiter or end of line.
func (l *lexer) unquoted(afterQuote bool) (bool, error) {
	for {
		c, err := l.in.ReadByte()
		if err == io.EOF {
			return false, nil
		}
		if err != nil {
			return false, err
		}
		switch c {
		case l.delimiter:
			return true, nil
		case '\r':
			if following, err := l.in.Peek(1); err == nil && following[0] == '\n' {
				l.in.Discard(1)
			}
			l.Line++
			return false, nil
		case '\n':
			l.Line++
			return false, nil
		}
		l.Misquoted = l.Misquoted || afterQuote
		if l.text = append(l.text, c); len(l.text) > MostBytes {
			return false, errTooLong
		}
	}
}
