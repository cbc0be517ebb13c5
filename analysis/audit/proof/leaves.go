package proof

import (
	"crypto/sha256"
	"hash"

	"plumbline/analysis/audit/record"
)

// A job's record in canonical form is text: for each table in order, and for each of the job's rows in the order of the
// CSV file, a line that is the table's name, a comma and the row's line in the CSV file. A leaf of the Merkle tree is
// one job's record, and the leaves stand in the order of jobs.csv. One leaf holds the whole record of a job, so that a
// proof shows not only that a row belongs to the bundle but also that none of the job's rows was left out.

// recordTables are the tables in the order in which they make up a record.
var recordTables = []string{"jobs", "attempts", "measurements", "scans", "faults", "glass", "road_tests", "documents",
	"findings", "missing"}

// Leaves grows the hash of each job's record line by line.
type Leaves struct {
	place map[record.Job]int
	Keys  []record.Job
	open  []hash.Hash
}

func NewLeaves() *Leaves { return &Leaves{place: map[record.Job]int{}} }

// Begin opens the record of a job; it reports false where that job has one already.
func (l *Leaves) Begin(job record.Job) bool {
	if _, known := l.place[job]; known {
		return false
	}
	l.place[job] = len(l.Keys)
	record := sha256.New()
	record.Write([]byte{leafPrefix})
	l.Keys, l.open = append(l.Keys, job), append(l.open, record)
	return true
}

// Add takes a line into the record of a job; it reports false where there is no such job.
func (l *Leaves) Add(job record.Job, line []byte) bool {
	place, known := l.place[job]
	if known {
		l.open[place].Write(line)
	}
	return known
}

// Hashes gives the leaf hashes in order.
func (l *Leaves) Hashes() []digest {
	sums := make([]digest, len(l.open))
	for i, record := range l.open {
		record.Sum(sums[i][:0])
	}
	return sums
}
