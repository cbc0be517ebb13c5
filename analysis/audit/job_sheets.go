package audit

import (
	"errors"
	"fmt"
	"html/template"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/layout"
)

// jobPage is the sheet of one job, to be printed.
type jobPage struct {
	Style                template.CSS
	Insurer, AsOf, Title string
	Facts                []namedValue
	Sections             []jobSection
	Missing              []namedValue
	NotDue               bool
}

// jobSection is the job's rows of one table, without the columns in which none has a value.
type jobSection struct {
	Title   string
	Columns []string
	Rows    [][]string
}

// sheetTitles are the sections of a sheet, by table.
var sheetTitles = map[string]string{
	"attempts": "What was done", "measurements": "What was measured", "scans": "What was scanned", "faults": "Faults read",
	"glass": "Glass fitted", "road_tests": "Road tests", "documents": "Documents listed", "findings": "What stands out",
}

// unsaid are columns that a sheet leaves to the tables.
var unsaid = []string{"shop", "job_no", "vin", "claim_no", "date_only", "vin_form", "sha256", "found_sha256", "finding",
	"value_written", "unit_written", "jobs_lacking"}

// writeJobSheets reads the tables back as they were written, all of them in the order of the jobs, and makes a sheet of
// each job's rows.
func (b *making) writeJobSheets() error {
	jobs, err := openTable(b.path("csv/jobs.csv"))
	if err != nil {
		return err
	}
	defer jobs.file.Close()
	others := map[string]*tableReader{}
	for _, t := range tables[1:] {
		r, err := openTable(b.path("csv/" + t.name + ".csv"))
		if err != nil {
			return err
		}
		defer r.file.Close()
		others[t.name] = r
	}
	index := jobIndex{Style: style(), Insurer: record.Visible(b.insurer)}
	for jobs.next != nil {
		if err := b.ctx.Err(); err != nil {
			return err
		}
		line, err := b.writeJobSheet(jobs, others)
		if err != nil {
			return err
		}
		index.Jobs = append(index.Jobs, line)
	}
	for name, r := range others {
		if r.next != nil || r.err != nil {
			return errors.Join(fmt.Errorf("%s: its rows are not in the order of the jobs", name), r.err)
		}
	}
	if jobs.err != nil {
		return jobs.err
	}
	return b.page("jobs.html", index)
}

// jobIndex leads to the sheets.
type jobIndex struct {
	Style   template.CSS
	Insurer string
	Jobs    []jobLine
}

// writeJobSheet writes the sheet of the next job. It is not forced to the disk on its own, as it only repeats what the tables say:
// of a large bundle that would take longer than all else.
func (b *making) writeJobSheet(jobs *tableReader, others map[string]*tableReader) (jobLine, error) {
	job := jobs.job()
	page := jobPage{Style: style(), Insurer: record.Visible(b.insurer), AsOf: readable(b.asked.AsOf)}
	page.Title = "Job " + record.Visible(job.String())
	own := jobs.section(job)
	isClosed := slices.Contains(own.Columns, "closed at")
	for i, name := range own.Columns {
		page.Facts = append(page.Facts, namedValue{name, own.Rows[0][i]})
	}
	known := b.jobLine(job)
	page.Facts = append([]namedValue{{"claim no", known.Claim}, {"VIN", known.VIN}}, page.Facts...)
	for _, t := range tables[1:] {
		section := others[t.name].section(job)
		if t.name == "missing" {
			page.Missing = missingLines(section)
			continue
		}
		page.NotDue = page.NotDue || t.name == "attempts" && !(isClosed && len(section.Rows) > 0)
		section.Title = sheetTitles[t.name]
		page.Sections = append(page.Sections, section)
	}
	switch n := len(page.Missing); {
	case page.NotDue:
		known.Detail = "not judged"
	case n == 0:
		known.Detail = "complete"
	default:
		known.Detail = fmt.Sprintf("lacks %d", n)
	}
	target := b.path(known.Sheet)
	if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
		return known, err
	}
	text, err := rendered("job.html", page)
	if err != nil {
		return known, err
	}
	return known, os.WriteFile(target, text, 0o644)
}

// missingLines say what the job lacks, in words.
func missingLines(section jobSection) []namedValue {
	value := func(row []string, name string) string {
		if i := slices.Index(section.Columns, name); i >= 0 {
			return row[i]
		}
		return ""
	}
	var lines []namedValue
	for _, row := range section.Rows {
		lines = append(lines, namedValue{policy.Lack{What: strings.ReplaceAll(value(row, "what"), " ", "_"), Subject: strings.ReplaceAll(value(row, "subject"), " ", "_")}.Words(),
			strings.TrimSpace(value(row, "system") + " " + value(row, "detail"))})
	}
	return lines
}

// said writes the layout's words as people do, and all else as it stands.
func said(column, text string) string {
	if isWord()[column] {
		return strings.ReplaceAll(text, "_", " ")
	}
	return text
}

var isWord = sync.OnceValue(func() map[string]bool {
	words := map[string]bool{"class": true, "severity": true, "decision": true, "what": true, "prior_job": true}
	for _, kind := range layout.Kinds {
		for _, column := range kind.Columns {
			words[column.Name] = words[column.Name] || column.Type == layout.Word
		}
	}
	return words
})
