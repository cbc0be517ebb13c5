package audit

import (
	"slices"

	"plumbline/analysis/audit/document"
	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/record"
)

// An insurer knows its claim number and the vehicle, not the shop's job number: both stand in every list.
var identityColumns = []record.Column{
	{Name: "vin", Meaning: "of the job: vehicle identification number as stored"},
	{Name: "claim_no", Meaning: "of the job: the insurer's claim number"},
}

// identity is what an insurer knows a job by, as the bundle shows it.
type identity struct{ vin, claim any }

// columns are those of a table's query and what the bundle adds to them, as the table is listed.
func (b *making) columns(t table) (queried, listed []record.Column) {
	queried = t.describe()
	if t.name == "documents" && b.docs != nil {
		queried = append(queried, document.LookupColumns...)
	}
	if t.name == "jobs" {
		return queried, queried
	}
	return queried, slices.Insert(slices.Clone(queried), 2, identityColumns...)
}

// identify adds to a row what its job is known by; of a job itself it is noted. The row is masked already.
func (b *making) identify(t table, columns []record.Column, row []any) []any {
	job := record.KeyOf(row)
	if t.name != "jobs" {
		known := b.known[job]
		return slices.Insert(row, 2, known.vin, known.claim)
	}
	place := func(name string) int {
		return slices.IndexFunc(columns, func(c record.Column) bool { return c.Name == name })
	}
	b.known[job] = identity{row[place("vin")], row[place("claim_no")]}
	return row
}

// jobLine is a job in a list of a page.
type jobLine struct {
	Shop, JobNo, VIN, Claim string
	Sheet                   string // its page, from the cover
	Detail                  string
}

func (b *making) jobLine(job record.Job) jobLine {
	known := b.known[job]
	return jobLine{Shop: record.Visible(job.Shop), JobNo: record.Visible(job.JobNo), VIN: shown(known.vin), Claim: shown(known.claim),
		Sheet: b.sheets.name(job)}
}

func shown(value any) string {
	text, _ := value.(string)
	return record.Visible(text)
}

// lacking is one job and one thing that it lacks.
type lacking struct {
	job    record.Job
	thing  policy.Lack // without a count
	detail string
}

// noteLacking takes note of a row of the table of what is missing; it is masked already.
func (b *making) noteLacking(row []any) {
	subject, _ := row[3].(string)
	detail, _ := row[5].(string)
	b.lacks = append(b.lacks, lacking{record.KeyOf(row), policy.Lack{What: row[2].(string), Subject: subject}, detail})
}
