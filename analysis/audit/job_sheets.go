package audit

import (
	"bufio"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"errors"
	"fmt"
	"html/template"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/layout"
)

// sheetNames gives each job the name of its sheet, once: file systems that tell no capitals get two names for two jobs.
type sheetNames struct {
	of    map[record.Job]string
	taken map[string]bool
}

func newSheetNames() *sheetNames {
	return &sheetNames{map[record.Job]string{}, map[string]bool{}}
}

func (n *sheetNames) name(job record.Job) string {
	if name, known := n.of[job]; known {
		return name
	}
	name := path.Join("jobs", record.SafeName(job.Shop), record.SafeName(job.JobNo)+".html")
	if n.taken[strings.ToLower(name)] {
		digest := sha256.Sum256([]byte(job.String()))
		name = strings.TrimSuffix(name, ".html") + "-" + hex.EncodeToString(digest[:4]) + ".html"
	}
	n.of[job], n.taken[strings.ToLower(name)] = name, true
	return name
}

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
