package answer

import (
	"fmt"
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/queries"
)

// A Linker leads from a finding or a job to the page of its vehicle; empty where it has none.
type Linker func(shop, jobNo string, vin *string) string

func kindTitle(kind string) string { return queries.KindNamed(kind).Title }

func textOf(text *string) string {
	if text == nil {
		return ""
	}
	return *text
}

// className is a finding's class for a reader.
func className(kind string, class *string) string {
	return queries.KindNamed(kind).ClassTitle(textOf(class))
}

// FindingName is a finding's kind and class in one label.
func FindingName(f quality.Finding) string {
	if class := className(f.Kind, f.Class); class != "" {
		return kindTitle(f.Kind) + ": " + class
	}
	return kindTitle(f.Kind)
}

// systemOf names the system of a finding, with its position and attempt where it has them.
func systemOf(f quality.Finding) string {
	if f.System == nil {
		return say.None
	}
	name := say.Plain(*f.System)
	if f.Position != nil {
		name = say.Plain(*f.Position) + " " + name
	}
	if f.AttemptNo != nil {
		name += fmt.Sprintf(", attempt %d", *f.AttemptNo)
	}
	return name
}

// SubjectOf is what a finding is about.
func SubjectOf(f quality.Finding) string {
	if f.Subject == nil {
		return systemOf(f)
	}
	if f.System == nil {
		return say.Plain(*f.Subject)
	}
	return say.Plain(*f.Subject) + " (" + systemOf(f) + ")"
}

// JobName names the vehicle and the job.
func JobName(shop, jobNo string, vin *string) string {
	name := shop + "/" + jobNo
	if vin != nil {
		name = *vin + ", " + name
	}
	return name
}

// Findings lists findings of the month, with the numbers by which they are decided.
func Findings(a About, name, title string, findings []quality.Finding, kinds []string, link Linker) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: name, Title: title}
	if len(findings) == 0 {
		e.Says = []string{"None in " + a.monthWords() + "."}
		return e
	}
	e.Says = []string{fmt.Sprintf("%s in %s, the gravest first. A decision is kept for good: plumbline decide FINDING confirm (or dismiss) --by NAME --note WHY, with "+
		"the number of the finding.", say.Sentence(say.Several(int64(len(findings)), "finding", "findings")), a.monthWords())}
	e.Table = FindingTable(findings, link)
	e.Table.Caption = title
	e.Table.All = a.monthCommand("plumbline findings --kind " + strings.Join(kinds, ","))
	return e
}

// FindingTable is findings in their order, with the columns of the command.
func FindingTable(findings []quality.Finding, link Linker) *exhibit.Table {
	deep := func(c exhibit.Column) exhibit.Column { c.Rank = exhibit.Depth; return c }
	page := func(c exhibit.Column) exhibit.Column { c.Only = exhibit.Pages; return c }
	columns := []exhibit.Column{
		{Name: "what", Only: exhibit.Pages | exhibit.Sheets}, page(exhibit.Column{Name: "job", Heading: "Vehicle and job"}),
		page(exhibit.Column{Name: "about", Heading: "System or subject"}), page(exhibit.Column{Name: "when", Heading: "When", Type: exhibit.Moment}),
		{Name: "severity"}, {Name: "finding", Type: exhibit.Command}, {Name: "kind", Only: exhibit.Files | exhibit.Sheets},
		{Name: "class", Only: exhibit.Files | exhibit.Sheets}, {Name: "shop", Only: exhibit.Files | exhibit.Sheets},
		{Name: "job_no", Heading: "Job", Only: exhibit.Files | exhibit.Sheets}, deep(exhibit.Column{Name: "vin", Heading: "VIN"}),
		deep(exhibit.Column{Name: "system"}), deep(exhibit.Column{Name: "position"}), deep(exhibit.Column{Name: "attempt_no", Heading: "Attempt", Type: exhibit.Count}),
		deep(exhibit.Column{Name: "subject"}), deep(exhibit.Column{Name: "at", Type: exhibit.Moment}), deep(exhibit.Column{Name: "technician"}),
		{Name: "detail", Type: exhibit.Prose}, deep(exhibit.Column{Name: "prior_shop", Heading: "Earlier shop"}),
		deep(exhibit.Column{Name: "prior_job_no", Heading: "Earlier job"}), deep(exhibit.Column{Name: "prior_system", Heading: "Earlier system"}),
		deep(exhibit.Column{Name: "prior_position", Heading: "Earlier position"}),
		deep(exhibit.Column{Name: "prior_attempt_no", Heading: "Earlier attempt", Type: exhibit.Count}), deep(exhibit.Column{Name: "days", Type: exhibit.Days}),
		{Name: "decision", Only: exhibit.Files | exhibit.Sheets},
	}
	columns = append(columns, rulingColumns()...)
	return &exhibit.Table{Columns: columns, Rows: exhibit.Each(findings, func(f quality.Finding) []any {
		job := exhibit.Cell{Value: JobName(f.Shop, f.JobNo, f.VIN), Link: link(f.Shop, f.JobNo, f.VIN)}
		return append([]any{FindingName(f), job, SubjectOf(f), f.At, severityCell(f), f.Finding, f.Kind, f.Class, f.Shop, f.JobNo, f.VIN, f.System, f.Position, f.AttemptNo,
			f.Subject, f.At, f.Technician, f.Detail, f.PriorShop, f.PriorJobNo, f.PriorSystem, f.PriorPosition, f.PriorAttemptNo, f.Days,
			exhibit.Cell{Value: f.Decision, Mark: exhibit.Decided}}, rulingCells(f.Decision, f.Ruling)...)
	})}
}

func severityCell(f quality.Finding) exhibit.Cell {
	if f.Severity == "high" {
		return exhibit.Cell{Value: f.Severity, Mark: exhibit.High}
	}
	return exhibit.Cell{Value: f.Severity}
}

// FindingSheet is every finding of the month, to be filtered.
func FindingSheet(a About, findings []quality.Finding, link Linker) exhibit.Exhibit {
	e := Findings(a, "all-findings", "All findings of "+a.monthWords(), findings, nil, link)
	if e.Table == nil {
		e.Table = FindingTable(findings, link)
	}
	e.Sheet = exhibit.Sheet{Name: "Findings", Keep: 1, About: "Every finding of the month, the gravest first"}
	return e
}

// Returns lists return visits, counted or not.
func Returns(a About, month, year []quality.Return, link Linker) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "returns", Title: "Came back in " + a.monthWords(), Sheet: exhibit.Sheet{Name: "Comebacks", Keep: 1,
		About: "Return visits of twelve months with both visits, counted or not"}}
	counted := int64(0)
	for _, back := range month {
		if back.IsCounted {
			counted++
		}
	}
	switch n := int64(len(month)); {
	case n == 0:
		e.Says = []string{"No return visit in " + a.monthWords() + "."}
	default:
		e.Says = []string{fmt.Sprintf("%s in %s, %s counted as %s.", say.Sentence(say.Several(n, "return visit", "return visits")), a.monthWords(),
			say.OrNone(counted)+say.One(counted, " of them is", " of them are"), say.One(counted, "a comeback", "comebacks"))}
	}
	e.Says = append(e.Says, "A return counts when the shop names the earlier job itself, when the complaint is about a system calibrated then, or when a person confirmed "+
		"it; a dismissed one does not. The other classes are listed and in no rate. The list goes back twelve months, the latest first.")
	if len(year) == 0 {
		return e
	}
	deep := func(c exhibit.Column) exhibit.Column { c.Rank = exhibit.Depth; return c }
	e.Table = &exhibit.Table{Caption: "Return visits in " + a.twelve(), All: a.yearCommand("plumbline findings --kind comeback"), Columns: joined([]exhibit.Column{
		{Name: "job", Heading: "Vehicle and job", Only: exhibit.Pages}, {Name: "opened_at", Heading: "Returned", Type: exhibit.Moment},
		{Name: "shop", Only: exhibit.Sheets}, {Name: "job_no", Heading: "Job", Only: exhibit.Sheets}, {Name: "vin", Heading: "VIN", Only: exhibit.Sheets},
		deep(exhibit.Column{Name: "make"}), deep(exhibit.Column{Name: "model"}), {Name: "class"}, {Name: "counted"}, {Name: "decision", Only: exhibit.Files | exhibit.Sheets}, {Name: "days", Type: exhibit.Days},
		{Name: "reason", Type: exhibit.Word}, {Name: "complaint", Type: exhibit.Prose}, deep(exhibit.Column{Name: "prior_shop", Heading: "Earlier shop"}),
		deep(exhibit.Column{Name: "prior_job_no", Heading: "Earlier job"}), {Name: "prior", Heading: "Earlier job", Only: exhibit.Pages},
		deep(exhibit.Column{Name: "prior_closed_at", Heading: "Earlier job closed", Type: exhibit.Moment}),
		deep(exhibit.Column{Name: "prior_technician", Heading: "Earlier technician"}), deep(exhibit.Column{Name: "supplier", Heading: "Glass supplier then"}),
		{Name: "finding", Type: exhibit.Command}}, rulingColumns()),
		Rows: exhibit.Each(year, func(b quality.Return) []any {
			return append([]any{exhibit.Cell{Value: JobName(b.Shop, b.JobNo, b.VIN), Link: link(b.Shop, b.JobNo, b.VIN)}, b.OpenedAt, b.Shop, b.JobNo, b.VIN, b.Make, b.Model,
				className("comeback", &b.Class), b.IsCounted, exhibit.Cell{Value: b.Decision, Mark: exhibit.Decided}, b.Days, b.Reason, b.Complaint, b.PriorShop,
				b.PriorJobNo, exhibit.Cell{Value: b.PriorShop + "/" + b.PriorJobNo, Link: link(b.PriorShop, b.PriorJobNo, b.VIN)}, b.PriorClosedAt, b.PriorTechnician,
				b.Supplier, b.Finding}, rulingCells(b.Decision, b.Ruling)...)
		})}
	return e
}
