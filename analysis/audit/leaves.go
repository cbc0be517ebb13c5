package audit

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"hash"
)

// A job's record in canonical form is text: for each table in order, and for each of the job's rows in the order of the
// CSV file, a line that is the table's name, a comma and the row's line in the CSV file. A leaf of the Merkle tree is
// one job's record, and the leaves stand in the order of jobs.csv. One leaf holds the whole record of a job, so that a
// proof shows not only that a row belongs to the bundle but also that none of the job's rows was left out.

// leaves grows the hash of each job's record line by line.
type leaves struct {
	place map[jobKey]int
	keys  []jobKey
	open  []hash.Hash
}

func newLeaves() *leaves { return &leaves{place: map[jobKey]int{}} }

// begin opens the record of a job; it reports false where that job has one already.
func (l *leaves) begin(job jobKey) bool {
	if _, known := l.place[job]; known {
		return false
	}
	l.place[job] = len(l.keys)
	record := sha256.New()
	record.Write([]byte{leafPrefix})
	l.keys, l.open = append(l.keys, job), append(l.open, record)
	return true
}

// add takes a line into the record of a job; it reports false where there is no such job.
func (l *leaves) add(job jobKey, line []byte) bool {
	place, known := l.place[job]
	if known {
		l.open[place].Write(line)
	}
	return known
}

// hashes gives the leaf hashes in order.
func (l *leaves) hashes() []digest {
	sums := make([]digest, len(l.open))
	for i, record := range l.open {
		record.Sum(sums[i][:0])
	}
	return sums
}

// csvLine writes fields as one line of a CSV file by RFC 4180, but with a line feed at its end.
func csvLine(fields []string) []byte {
	var line bytes.Buffer
	w := csv.NewWriter(&line)
	if err := w.Write(fields); err != nil {
		panic(err) // a buffer takes everything
	}
	w.Flush()
	return line.Bytes()
}

// recordLine is a row's line in the canonical form of its job.
func recordLine(table string, line []byte) []byte {
	return append([]byte(table+","), line...)
}
