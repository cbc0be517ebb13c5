package record

import (
	"bytes"
	"encoding/csv"
)

// Job names a job.
type Job struct{ Shop, JobNo string }

func (k Job) String() string { return k.Shop + "/" + k.JobNo }

// KeyOf takes the job that a row belongs to: every table begins with shop and job_no.
func KeyOf(row []any) Job { return Job{row[0].(string), row[1].(string)} }

// A column of a table, as the head of its query describes it.
type Column struct {
	Name, Meaning string
}

// Line writes fields as one line of a CSV file by RFC 4180, but with a line feed at its end.
func Line(fields []string) []byte {
	var line bytes.Buffer
	w := csv.NewWriter(&line)
	if err := w.Write(fields); err != nil {
		panic(err) // a buffer takes everything
	}
	w.Flush()
	return line.Bytes()
}

// OfTable is a row's line in the canonical form of its job.
func OfTable(table string, line []byte) []byte {
	return append([]byte(table+","), line...)
}

// ByteOrderMark opens a CSV file, so that a spreadsheet takes it for UTF-8.
const ByteOrderMark = "\ufeff"
