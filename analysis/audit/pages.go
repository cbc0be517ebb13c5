package audit

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"slices"
	"strings"
	"time"

	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/stats"
	"plumbline/queries"
)

//go:embed templates
var templateFiles embed.FS

var pages = template.Must(template.New("").ParseFS(templateFiles, "templates/*.html"))

// style is the pages' own; nothing is loaded from elsewhere.
func style() template.CSS {
	css, err := templateFiles.ReadFile("templates/style.css")
	if err != nil {
		panic(err) // the file is embedded
	}
	return template.CSS(css)
}

func (b *making) page(name string, data any) error {
	text, err := rendered(name, data)
	if err != nil {
		return err
	}
	return writeFile(b.path(name), text)
}

// rendered makes the text of a page.
func rendered(name string, data any) ([]byte, error) {
	var out bytes.Buffer
	if err := pages.ExecuteTemplate(&out, name, data); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return out.Bytes(), nil
}

func (b *making) writePages() error {
	if err := b.page("cover.html", b.cover()); err != nil {
		return err
	}
	if err := b.writeMissingPage(); err != nil {
		return err
	}
	if err := b.writeJobSheets(); err != nil {
		return err
	}
	return b.page("how-to-check.html", b.checking())
}

type coverPage struct {
	Style                         template.CSS
	Insurer, Period, AsOf, Policy string
	Jobs, Due, Complete, NotDue   int64
	CompleteShare                 string
	Interval                      string
	Rules                         []policy.Plain
	Lacking                       []missingThing
	Asked                         []namedValue
	Tables                        []tableLine
	Sample                        int
	LeftOut                       []string
	Findings                      []findingLine
	Journal                       []proof.JournalFile
	Root, Signer, Tool            string
	Masked                        bool
}

type (
	namedValue struct{ Name, Value string }
	tableLine  struct {
		Table, Title string
		Rows         int64
	}
	findingLine struct {
		Kind, Severity string
		Times          int64
	}
)

func (b *making) cover() coverPage {
	c := b.complete
	page := coverPage{Style: style(), Insurer: record.Visible(b.insurer), Period: b.period(), AsOf: readable(b.asked.AsOf),
		Policy: record.Visible(b.o.Policy.Name), Jobs: c.Jobs, Due: c.Due, Complete: c.Complete, NotDue: c.Jobs - c.Due,
		CompleteShare: percent(c.Complete, c.Due), Asked: b.wasAsked(), LeftOut: b.leftOut(), Findings: b.findingLines(),
		Root: b.root, Signer: b.signer(), Tool: b.o.ToolVersion, Masked: len(b.o.Mask) > 0}
	page.Interval, page.Rules, page.Lacking = b.interval(), b.o.Policy.Plain(), b.missingThings()
	for _, file := range b.journal {
		file.File = record.Visible(file.File)
		page.Journal = append(page.Journal, file)
	}
	for i, count := range b.rows {
		title, err := queries.Title(tables[i].query)
		if err != nil {
			panic(err) // the file is embedded
		}
		page.Tables = append(page.Tables, tableLine{count.Table, title, count.Rows})
	}
	if b.sample != nil {
		page.Sample = len(b.sample.Jobs)
	}
	return page
}

// interval is what the share of complete jobs may be of work like this, by Wilson's 95 % interval; empty where none is due.
func (b *making) interval() string {
	c := b.complete
	if c.Due == 0 {
		return ""
	}
	within, err := stats.Wilson(stats.Proportion{Count: c.Complete, N: c.Due}, stats.Level95)
	if err != nil {
		panic(err) // counts are no rates out of bounds
	}
	return fmt.Sprintf("%.1f to %.1f %%", 100*within.Low, 100*within.High)
}

// wasAsked lists what the bundle was asked for.
func (b *making) wasAsked() []namedValue {
	o := b.o
	masked := make([]string, len(o.Mask))
	for i, field := range o.Mask {
		masked[i] = string(field)
	}
	list := []namedValue{
		{"Insurer", record.Visible(b.insurer) + ", in any spelling of upper and lower case"},
		{"Shop", orElse(record.Visible(o.Shop), "all")},
		{"Jobs opened", orElse(b.period(), "at any time")},
		{"As of", readable(b.asked.AsOf) + "; nothing later is counted"},
		{"Comeback window", fmt.Sprintf("%d days from closing", b.asked.WindowDays)},
		{"Policy", record.Visible(o.Policy.Name)},
		{"Masked", orElse(strings.Join(masked, ", "), "nothing")},
		{"Documents", "listed only; their files were not looked up"},
		{"Sample", "none"},
	}
	if o.Documents != "" {
		list[7].Value = "looked up and compared with the hashes on record; see the columns lookup and found_sha256"
	}
	if o.CopyDocuments {
		list[7].Value += "; the files that are those on record, by their SHA-256, are in the folder documents, and no others"
	}
	if b.sample != nil {
		list[8].Value = fmt.Sprintf("%d of %d jobs", len(b.sample.Jobs), b.sample.Lot)
	}
	return list
}

// leftOut says what a reader might look for and not find.
func (b *making) leftOut() []string {
	list := []string{
		"Jobs of other insurers and jobs that carry no insurer, and everything about them. A link to such a job says " +
			"“another job”.",
		"A later visit that carries no insurer is shown only as a property of the job that it came back from " +
			"(returned_at, return_class). One that another insurer pays for is not shown.",
		"Records that belong to no job on record, and everything later than the moment given.",
	}
	if b.masks(mask.Complaint) {
		list = append(list, "Complaints, at the request of whoever made the bundle.")
	}
	if f := b.found; f != nil {
		for _, part := range []struct {
			names []string
			said  string
		}{
			{f.Absent, "listed documents whose files were not found"},
			{f.Changed, "documents whose files are no longer those on record"},
			{f.NoHash, "documents found that cannot be compared, for no hash is on record"},
			{f.Unclear, "listed documents whose name other jobs list too, while the file is not the one on record"},
			{f.Refused, "listed documents whose names lead out of the documents folder or to no file"},
		} {
			if len(part.names) > 0 {
				list = append(list, fmt.Sprintf("%d %s; see csv/documents.csv.", len(part.names), part.said))
			}
		}
	}
	return list
}

func (b *making) masks(field mask.Field) bool { return slices.Contains(b.o.Mask, field) }

func (b *making) signer() string {
	if b.o.Key == nil {
		return ""
	}
	return b.o.Key.Fingerprint()
}

// period says the bounds of the jobs' opening; empty for any time.
func (b *making) period() string {
	switch from, to := bound(b.o.From), bound(b.o.To); {
	case from != "" && to != "":
		return "from " + from + " to " + to
	case from != "":
		return "from " + from + " on"
	case to != "":
		return "up to " + to
	}
	return ""
}

// bound writes a bound of a period: a whole day, from its first to its last second, by its date alone.
func bound(t *time.Time) string {
	if t != nil && (t.Format("15:04:05") == "00:00:00" || t.Format("15:04:05") == "23:59:59") {
		return t.Format(time.DateOnly)
	}
	return readable(t)
}

// readable writes a moment for people; none is empty.
func readable(t *time.Time) string {
	if t == nil {
		return ""
	}
	return t.Format("2006-01-02 15:04")
}
