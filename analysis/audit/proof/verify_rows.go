package proof

import (
	"bufio"
	"encoding/csv"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"plumbline/analysis/audit/record"
)

// recount counts the rows of the CSV files and grows the Merkle tree from them anew.
func (c *checking) recount() error {
	c.records = NewLeaves()
	for _, t := range recordTables {
		name := "csv/" + t + ".csv"
		if _, present := c.held[name]; !present {
			continue // named already
		}
		rows, err := c.readTable(t, name)
		if err != nil {
			return err
		}
		c.report.Rows = append(c.report.Rows, RowCount{rows, t})
		place := slices.IndexFunc(c.manifest.Rows, func(count RowCount) bool { return count.Table == t })
		if place < 0 || c.manifest.Rows[place].Rows != rows {
			said := "none"
			if place >= 0 {
				said = fmt.Sprint(c.manifest.Rows[place].Rows)
			}
			c.found(name, "rows", "has %d rows, the manifest says %s", rows, said)
		}
	}
	root := MerkleRoot(c.records.Hashes())
	c.report.Root, c.report.Jobs = hex.EncodeToString(root[:]), len(c.records.Keys)
	if c.report.Root != c.manifest.Merkle.Root || c.report.Jobs != c.manifest.Merkle.Leaves {
		c.found(ManifestName, "root", "its Merkle root is not the one that the CSV files give (%s over %d jobs)",
			c.report.Root, c.report.Jobs)
	}
	return nil
}

// readTable takes a table's rows into the records; what cannot be read as CSV ends it.
func (c *checking) readTable(table, name string) (rows int64, err error) {
	err = eachLine(filepath.Join(c.dir, filepath.FromSlash(name)), func(fields []string) {
		rows++
		if len(fields) < 2 {
			c.found(name, "rows", "row %d names no job", rows)
			return
		}
		job := record.Job{Shop: record.Restored(fields[0]), JobNo: record.Restored(fields[1])}
		if table == "jobs" && !c.records.Begin(job) {
			c.found(name, "rows", "row %d is the second of job %s", rows, record.Visible(job.String()))
		}
		if !c.records.Add(job, record.OfTable(table, record.Line(fields))) {
			c.found(name, "rows", "row %d is of job %s, which csv/jobs.csv does not hold", rows, record.Visible(job.String()))
		}
	})
	var broken *csv.ParseError
	if errors.As(err, &broken) {
		c.found(name, "changed", "cannot be read as CSV from line %d on", broken.Line)
		return rows, nil
	}
	return rows, err
}

// eachLine reads a CSV file of a bundle, its header aside.
func eachLine(path string, take func(fields []string)) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	text := bufio.NewReaderSize(file, 1<<16)
	if mark, _ := text.Peek(len(record.ByteOrderMark)); string(mark) == record.ByteOrderMark {
		text.Discard(len(record.ByteOrderMark))
	}
	reader := csv.NewReader(text)
	if _, err := reader.Read(); err != nil {
		return ignoreEOF(err)
	}
	for {
		fields, err := reader.Read()
		if err != nil {
			return ignoreEOF(err)
		}
		take(fields)
	}
}

func ignoreEOF(err error) error {
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}

// jobNamed reads SHOP/JOB_NO. A shop's name may hold a slash itself: what is in the bundle decides.
func jobNamed(text string, known func(record.Job) bool) (record.Job, error) {
	for i := range text {
		if text[i] == '/' {
			if job := (record.Job{Shop: text[:i], JobNo: text[i+1:]}); known(job) {
				return job, nil
			}
		}
	}
	if !strings.Contains(text, "/") {
		return record.Job{}, fmt.Errorf("job “%s”: write it as SHOP/JOB_NO", record.Visible(text))
	}
	return record.Job{}, fmt.Errorf("there is no job “%s” in the bundle", record.Visible(text))
}
