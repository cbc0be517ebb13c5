package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// ReworkGroupings are what the cost of work done again is shown by, in the order of the page.
var ReworkGroupings = []string{"failure_code", "stand", "system", "source"}

var reworkHeadings = map[string]string{"failure_code": "Failure code of the attempt before", "stand": "Stand of the attempt before", "system": "System", "source": "Glass source"}

// ReworkCauses is what the work done again goes back to, and every attempt of it.
func ReworkCauses(a About, byGrouping map[string][]quality.ReworkCause, attempts []quality.ReworkAttempt, link Linker) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "causes", Title: "What the rework goes back to, over twelve months"}
	if len(attempts) == 0 {
		e.Says = []string{"No work was done again in these months."}
		return e
	}
	e.Says = []string{fmt.Sprintf("%s again in %s. It is summed by what it goes back to, which is where to look first and not what caused it. Hours of attempts without an end are not in "+
		"the sums.", say.Sentence(say.Several(int64(len(attempts)), "attempt was done", "attempts were done")), a.twelve())}
	var tables []*exhibit.Table
	for _, by := range ReworkGroupings {
		t := causeTable(a, by, byGrouping[by])
		tables = append(tables, t)
		e.Parts = append(e.Parts, exhibit.Exhibit{Name: "causes-" + by, Title: "By " + lowerFirst(reworkHeadings[by]), Table: t})
	}
	list := reworkList(a, attempts, link)
	list.Sheet = exhibit.Sheet{Name: "Rework attempts", Keep: 2, About: "Every attempt done again in twelve months, with its hours"}
	e.Parts = append(e.Parts, list, exhibit.Exhibit{Name: "rework-causes", Title: "What the rework goes back to", Folds: true,
		Sheet: exhibit.Sheet{Name: "Rework by cause", Keep: 2, About: "Hours of work done again by failure code, stand, system and glass source"},
		Table: sheetOnly(exhibit.Stack([]exhibit.Column{{Name: "by", Heading: "Summed by"}}, tables, func(i int) []any { return []any{reworkHeadings[ReworkGroupings[i]]} }))})
	return e
}

// sheetOnly takes a table off the pages.
func sheetOnly(t *exhibit.Table) *exhibit.Table {
	columns := make([]exhibit.Column, len(t.Columns))
	for i, c := range t.Columns {
		if c.IsIn(exhibit.Sheets) {
			c.Only = exhibit.Sheets
		}
		columns[i] = c
	}
	t.Columns = columns
	return t
}

func causeTable(a About, by string, causes []quality.ReworkCause) *exhibit.Table {
	cost := costColumn()
	if a.LaborRate == nil {
		cost.Only = exhibit.Files | exhibit.Sheets
	}
	says := func(name string) string { return name }
	if by == "source" {
		says = sourceName
	} else if by == "system" {
		says = say.Plain
	}
	return &exhibit.Table{Caption: "Work done again by " + lowerFirst(reworkHeadings[by]), Columns: joined(exhibit.Column{Name: "group", Heading: "Goes back to"}, exhibit.Column{Name: "cause"},
		counts(exhibit.Answer, [2]string{"attempts", "Attempts"}, [2]string{"without_end", "Without an end"}), exhibit.Column{Name: "hours", Type: exhibit.Hours}, cost),
		Rows: exhibit.Each(causes, func(c quality.ReworkCause) []any {
			group := "none on record"
			if c.Group != nil {
				group = says(*c.Group)
			}
			return []any{group, c.Cause, c.Attempts, c.WithoutEnd, c.Hours, a.cost(c.Hours)}
		})}
}

// reworkList is where each hour went, the longest first.
func reworkList(a About, attempts []quality.ReworkAttempt, link Linker) exhibit.Exhibit {
	deep := func(name, heading string) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Only: exhibit.Files | exhibit.Sheets}
	}
	return exhibit.Exhibit{Name: "rework-attempts", Title: "Every attempt done again, the longest first", Folds: true, Table: &exhibit.Table{Caption: "Attempts done again in " + a.twelve(),
		All: a.yearCommand("plumbline query rework_list"), Columns: []exhibit.Column{{Name: "job", Heading: "Vehicle and job", Only: exhibit.Pages}, deep("shop", "Shop"), deep("job_no", "Job"), deep("vin", "VIN"),
			{Name: "system", Type: exhibit.Word}, {Name: "position", Type: exhibit.Word, Rank: exhibit.Detail}, {Name: "attempt_no", Heading: "Attempt", Type: exhibit.Count, Rank: exhibit.Detail},
			{Name: "cause"}, {Name: "started_at", Heading: "Started", Type: exhibit.Moment}, {Name: "hours", Type: exhibit.Hours}, {Name: "technician"}, {Name: "failure_code", Heading: "Code before"},
			{Name: "failure_text", Heading: "Text before", Rank: exhibit.Depth}, {Name: "stand"}, {Name: "source", Heading: "Glass source", Says: sourceName}},
		Rows: exhibit.Each(attempts, func(r quality.ReworkAttempt) []any {
			return []any{exhibit.Cell{Value: JobName(r.Shop, r.JobNo, r.VIN), Link: link(r.Shop, r.JobNo, r.VIN)}, r.Shop, r.JobNo, r.VIN, r.System, r.Position, r.AttemptNo, r.Cause, r.StartedAt,
				r.Hours, r.Technician, r.FailureCode, r.FailureText, r.Stand, r.Source}
		})}}
}
