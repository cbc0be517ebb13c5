package audit

import (
	"bufio"
	"encoding/csv"
	"errors"
	"io"
	"os"
	"slices"
	"strings"

	"plumbline/analysis/audit/record"
)

// tableReader reads a table of the bundle row by row.
type tableReader struct {
	file    *os.File
	reader  *csv.Reader
	columns []string
	next    []string // nil at the end
	err     error
}

func openTable(name string) (*tableReader, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	text := bufio.NewReaderSize(file, 1<<16)
	if _, err := text.Discard(len(record.ByteOrderMark)); err != nil {
		file.Close()
		return nil, err
	}
	r := &tableReader{file: file, reader: csv.NewReader(text)}
	if r.columns, err = r.reader.Read(); err != nil {
		file.Close()
		return nil, err
	}
	r.advance()
	return r, nil
}

func (r *tableReader) advance() {
	r.next, r.err = r.reader.Read()
	if errors.Is(r.err, io.EOF) {
		r.next, r.err = nil, nil
	}
}

func (r *tableReader) job() record.Job {
	return record.Job{Shop: record.Restored(r.next[0]), JobNo: record.Restored(r.next[1])}
}

// section takes the rows of a job.
func (r *tableReader) section(job record.Job) jobSection {
	var rows [][]string
	for r.next != nil && r.job() == job {
		rows = append(rows, r.next)
		r.advance()
	}
	var s jobSection
	for i, name := range r.columns {
		if slices.Contains(unsaid, name) || !slices.ContainsFunc(rows, func(row []string) bool { return row[i] != "" }) {
			continue
		}
		s.Columns = append(s.Columns, strings.ReplaceAll(name, "_", " "))
		for j, row := range rows {
			if len(s.Rows) <= j {
				s.Rows = append(s.Rows, nil)
			}
			s.Rows[j] = append(s.Rows[j], said(name, record.Visible(record.Restored(row[i]))))
		}
	}
	return s
}
