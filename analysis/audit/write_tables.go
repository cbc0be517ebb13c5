package audit

import (
	"fmt"

	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
)

// findingKind is what the cover counts findings by.
type findingKind struct{ kind, severity string }

func (b *making) writeTables() error {
	for _, t := range tables {
		if err := b.writeTable(t); err != nil {
			return err
		}
	}
	return nil
}

// writeTable writes one table as CSV and as sheets, and takes its rows into the jobs' records.
func (b *making) writeTable(t table) error {
	queried, columns := b.columns(t)
	file, err := createCSV(b.path("csv/"+t.name+".csv"), columns)
	if err != nil {
		return err
	}
	sheet, err := b.book.sheet(t.name, columns)
	if err != nil {
		file.file.Close()
		return err
	}
	err = t.each(b.ctx, b.h, func(row []any) error {
		row, err := b.prepareRow(t, queried, row)
		if err != nil {
			return err
		}
		line := record.Line(fields(row))
		b.record(t, row, line)
		if err := file.write(line); err != nil {
			return err
		}
		return sheet.write(row)
	})
	if err != nil {
		file.file.Close()
		return err
	}
	if err := file.close(); err != nil {
		return err
	}
	b.rows = append(b.rows, proof.RowCount{Rows: file.rows, Table: t.name})
	return sheet.finish()
}

// prepareRow looks up, counts, cuts, masks, and says which claim and vehicle it is about.
func (b *making) prepareRow(t table, columns []record.Column, row []any) ([]any, error) {
	var err error
	switch {
	case t.name == "documents" && b.docs != nil:
		if row, err = b.docs.Look(row); err != nil {
			return nil, err
		}
	case t.name == "findings":
		severity, _ := row[4].(string)
		b.kinds[findingKind{row[2].(string), severity}]++
	case t.name == "missing":
		subject, _ := row[3].(string)
		b.tally.Add(row[2].(string), subject, row[6].(int64), row[7].(int64))
	}
	row = row[:len(columns)]
	b.mask.Row(t.name, columns, row)
	if t.name == "missing" {
		b.noteLacking(row)
	}
	return b.identify(t, columns, row), nil
}

// record takes a row's line into its job's record.
func (b *making) record(t table, row []any, line []byte) {
	job := record.KeyOf(row)
	if t.name == "jobs" {
		b.leaves.Begin(job)
	}
	if !b.leaves.Add(job, record.OfTable(t.name, line)) {
		panic(fmt.Sprintf("audit: %s gives a row of %s, which is not in the bundle", t.query, job))
	}
}

func fields(row []any) []string {
	texts := make([]string, len(row))
	for i, value := range row {
		texts[i] = record.Field(value)
	}
	return texts
}
