package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// Subject is the page of a person, bay, stand or board: what happened month by month, its checks, actions, software and
// failures in order of time, what worked next, and how its measured values lay.
func Subject(s quality.SubjectStory, link Linker) []exhibit.Exhibit {
	return []exhibit.Exhibit{subjectMonths(s), subjectEvents(s, link), subjectFailures(s), subjectReadings(s)}
}

func subjectMonths(s quality.SubjectStory) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "months", Title: "Month by month", Says: []string{"No attempt is on record."}}
	if len(s.Months) == 0 {
		return e
	}
	var tasks, missed int64
	for _, m := range s.Months {
		tasks, missed = tasks+m.Tasks, missed+m.NotFirstPass
	}
	e.Says = []string{fmt.Sprintf("%s begun here, %s of them not first pass.", say.Sentence(say.Several(tasks, "task was", "tasks were")), say.OrNone(missed))}
	own := share{count: "count", n: "n", rate: "rate", low: "low", high: "high", countHeading: "Not first pass", nHeading: "Tasks"}
	e.Table = &exhibit.Table{Caption: "Tasks, attempts and measured values by month", Latest: true, Columns: joined(exhibit.Column{Name: "month", Type: exhibit.Month}, own.columns(),
		counts(exhibit.Detail, [2]string{"attempts", "Attempts"}, [2]string{"not_completed", "Not completed"}, [2]string{"readings", "Measured values"}, [2]string{"outside", "Outside tolerance"})),
		Rows: exhibit.Each(s.Months, func(m quality.SubjectMonth) []any {
			low, high := wilson(m.NotFirstPass, m.Tasks)
			return []any{m.Month, m.NotFirstPass, m.Tasks, rateOf(m.NotFirstPass, m.Tasks), low, high, m.Attempts, m.NotCompleted, m.Readings, m.Outside}
		})}
	e.Drawing = &exhibit.Drawing{Title: "Share of tasks not first pass, month by month", Alt: "Rates by month with their 95 % intervals",
		Across: exhibit.Axis{Column: "month", Scale: exhibit.Names}, Up: exhibit.Axis{Type: exhibit.Share},
		Label: func(i int) string {
			return fmt.Sprintf("%s: %s", say.Month(s.Months[i].Month), say.OutOf(s.Months[i].NotFirstPass, s.Months[i].Tasks))
		},
		Series: []exhibit.Series{{Name: "95 % interval", Column: "low", To: "high", Look: exhibit.Span}, {Name: "rate", Column: "rate", Look: exhibit.Dot}}}
	return e
}

func subjectEvents(s quality.SubjectStory, link Linker) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "events", Title: "Checks, actions, software and failures, the latest first", Says: []string{"None is on record."}}
	if len(s.Events) == 0 {
		return e
	}
	e.Says = []string{"A failure is shown with what came next in its task."}
	e.Table = &exhibit.Table{Caption: "In order of time", Latest: true, All: fmt.Sprintf("plumbline trace %s=%s", s.Kind, Argument(s.Name)), Columns: []exhibit.Column{
		{Name: "at", Heading: "When", Type: exhibit.Moment}, {Name: "kind", Type: exhibit.Word}, {Name: "outcome", Type: exhibit.Word}, {Name: "text", Heading: "What", Type: exhibit.Prose},
		{Name: "by"}, {Name: "due_at", Heading: "Next due", Type: exhibit.Day, Rank: exhibit.Detail}, {Name: "job", Heading: "Vehicle and job"},
		{Name: "next_at", Heading: "Tried again", Type: exhibit.Moment, Rank: exhibit.Detail}, {Name: "next_outcome", Heading: "Then", Type: exhibit.Word}},
		Rows: exhibit.Each(s.Events, func(v quality.SubjectEvent) []any {
			job := exhibit.Cell{}
			if v.JobNo != nil {
				job = exhibit.Cell{Value: JobName(v.Shop, *v.JobNo, v.VIN), Link: link(v.Shop, *v.JobNo, v.VIN)}
			}
			outcome := exhibit.Cell{Value: v.Outcome}
			if v.Kind == "check" && textOf(v.Outcome) == "failed" {
				outcome.Mark = exhibit.High
			}
			return []any{v.At, v.Kind, outcome, v.Text, v.By, v.DueAt, job, v.NextAt, v.NextOutcome}
		})}
	return e
}

func subjectFailures(s quality.SubjectStory) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "failures", Title: "What failed here, and what worked next", Says: []string{"No attempt failed or was broken off here."}}
	if len(s.Failures) == 0 {
		return e
	}
	e.Says = []string{"Elsewhere is how often the same code was recorded on any other. What differed when the next attempt completed is listed in the last column."}
	next := share{"completed", "retried", "rate", "low", "high", "Completed next", "Tried again", "Completed at the next", "Next", exhibit.Figure}
	e.Table = &exhibit.Table{Caption: "Failure codes, the commonest first", Columns: joined(exhibit.Column{Name: "code"}, exhibit.Column{Name: "text", Heading: "Text"},
		counts(exhibit.Answer, [2]string{"n", "Here"}, [2]string{"others", "Elsewhere"}), next.columns(), exhibit.Column{Name: "changed", Heading: "Changed when it worked", Type: exhibit.Prose}),
		Rows: exhibit.Each(s.Failures, func(f quality.SubjectFailure) []any {
			code := any("none recorded")
			if f.Code != nil {
				code = *f.Code
			}
			low, high := wilson(f.CompletedNext, f.Retried)
			return []any{code, f.Text, f.N, f.Others, f.CompletedNext, f.Retried, rateOf(f.CompletedNext, f.Retried), low, high, f.Changed}
		})}
	return e
}

func subjectReadings(s quality.SubjectStory) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "readings", Title: "Measured values against their tolerance", Says: []string{"No measured value with a tolerance is on record."}}
	if len(s.Readings) == 0 {
		return e
	}
	e.Says = []string{"In half widths of the tolerance: 0 is its middle, −1 and 1 its bounds. Month by month, the middle value, the least and the greatest."}
	columns := joined(exhibit.Column{Name: "month", Type: exhibit.Month}, counts(exhibit.Figure, [2]string{"n", "n"}, [2]string{"outside", "Outside"}),
		exhibit.Column{Name: "median", Heading: "Middle value", Type: exhibit.Level}, interval(exhibit.Level, exhibit.Figure, "Least – greatest", "low", "Least", "high", "Greatest"))
	byQuantity := map[string][]quality.SubjectReading{}
	var order []string
	for _, r := range s.Readings {
		if byQuantity[r.Quantity] == nil {
			order = append(order, r.Quantity)
		}
		byQuantity[r.Quantity] = append(byQuantity[r.Quantity], r)
	}
	for _, quantity := range order {
		rows := byQuantity[quantity]
		e.Parts = append(e.Parts, exhibit.Exhibit{Name: "reading-" + quantity, Title: say.Sentence(say.Plain(quantity)),
			Table: &exhibit.Table{Caption: say.Sentence(say.Plain(quantity)) + " by month", Latest: true, Columns: columns,
				Rows: exhibit.Each(rows, func(r quality.SubjectReading) []any { return []any{r.Month, r.N, r.Outside, r.Median, r.Low, r.High} })},
			Drawing: &exhibit.Drawing{Title: say.Sentence(say.Plain(quantity)) + ", month by month", Alt: "Middle values by month with their span",
				Across: exhibit.Axis{Column: "month", Scale: exhibit.Names}, Up: exhibit.Axis{Type: exhibit.Level, Scale: exhibit.Zoomed},
				Label: func(i int) string {
					return fmt.Sprintf("%s: %s, %s", say.Month(rows[i].Month), say.Number(rows[i].Median, 2), say.Several(rows[i].N, "value", "values"))
				},
				Series: []exhibit.Series{{Name: "span", Column: "low", To: "high", Look: exhibit.Span}, {Name: "middle value", Column: "median", Look: exhibit.Dot}}}})
	}
	return e
}
