package answer

import (
	"fmt"
	"time"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/quality"
)

// Summary is the opening sheet of a workbook: what the month was, its figures, the work done and what it cost.
func Summary(a About, sentences []string, figures Figures, lines []quality.ReworkLine, charts []exhibit.Exhibit) exhibit.Exhibit {
	if !a.MonthEnded {
		sentences = append(sentences[:len(sentences):len(sentences)], a.NotEnded())
	}
	e := exhibit.Exhibit{Name: "summary", Title: a.Title(), Says: sentences, Sheet: exhibit.Sheet{Name: "Summary", Below: true,
		About: "What the month was: its figures beside the usual, and the work done"}}
	part := func(name, title string, t *exhibit.Table) exhibit.Exhibit {
		return exhibit.Exhibit{Name: name, Title: title, Table: t}
	}
	e.Parts = []exhibit.Exhibit{
		part("summary-shares", "The figures: shares", figureTable(a, figures, exhibit.Share, "First pass (tasks)", "first_pass",
			"Comebacks (jobs followed for the whole window)", "comeback")),
		part("summary-faults", "The figures: open faults a scanned job", figureTable(a, figures, exhibit.PerUnit, "Open post-scan faults", "open_faults")),
		part("summary-work", "The work", workTable(a)), part("summary-rework", "Rework", reworkTable(a, lines))}
	for _, chart := range charts {
		if chart.Drawing != nil {
			drawing := *chart.Drawing
			drawing.Rows = chart.Table
			e.Parts = append(e.Parts, exhibit.Exhibit{Drawing: &drawing})
		}
	}
	return e
}

// Title names what a review is of.
func (a About) Title() string {
	if a.IsEmpty() {
		return "Quality review"
	}
	return "Quality review of " + a.monthWords()
}

// NotEnded warns of a month that may not be whole.
func (a About) NotEnded() string {
	return "The records do not reach to the end of " + a.monthWords() + ": the month may not be whole."
}

// figureTable is figures of one type, given by what they are called and their names, beside the usual and the month before.
func figureTable(a About, figures Figures, of exhibit.Type, named ...string) *exhibit.Table {
	own, before := usualShare, share{count: "count_before", n: "n_before", rate: "rate_before", countHeading: "Count before", nHeading: "n before", rateHeading: "Rate before"}
	change := exhibit.Column{Name: "change", Heading: "Change, points", Type: exhibit.Change, Formula: "{rate}-{rate_before}"}
	columns, past := own.columns(), before.columns()
	if of == exhibit.PerUnit {
		change.Heading, change.Type = "Change", exhibit.UnitChange
		// Garwood (1936) Biometrika 28:437-442; the gamma quantiles are those of chi-squared.
		columns[3].Formula, columns[4].Formula = `IF({count}=0,0,CHIINV(0.975,2*{count})/2/{n})`, `CHIINV(0.025,2*{count}+2)/2/{n}`
		columns[2].Type, columns[3].Type, columns[4].Type, past[2].Type = of, of, of, of
	}
	usualOf := func(name, heading string) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Type: of}
	}
	t := &exhibit.Table{Columns: joined(exhibit.Column{Name: "figure"}, exhibit.Column{Name: "month", Type: exhibit.Month}, columns,
		exhibit.Column{Name: "month_before", Heading: "Month before", Type: exhibit.Month}, past, change, usualOf("usual", "Usual"), usualOf("lower", "Lower limit"),
		usualOf("upper", "Upper limit"), exhibit.Column{Name: "call"})}
	var rows [][]any
	for i := 0; i < len(named); i += 2 {
		rows = append(rows, figureRow(named[i], figures.named(named[i+1])))
	}
	t.Rows = exhibit.Given(rows...)
	return t
}

func figureRow(says string, f *Figure) []any {
	row := make([]any, 16)
	row[0], row[15] = says, "nothing to judge"
	if f == nil {
		return row
	}
	now := f.Now
	row[1], row[2], row[3], row[4], row[5], row[6] = now.Period, now.Count, now.N, now.Rate, now.Low, now.High
	if b := f.Before; b != nil && b.Rate != nil {
		row[7], row[8], row[9], row[10], row[11] = b.Period, b.Count, b.N, b.Rate, *now.Rate-*b.Rate
	}
	i := placeOf(f.Points, now.Period)
	if f.Points[i].IsMatured() {
		row[12], row[13], row[14] = f.usual(i)
	}
	row[15] = callCell(f.Points, i)
	return row
}

func (f Figure) usual(i int) (any, any, any) {
	center, lower, upper := readers[f.Name].usual(f.Points[i])
	return center, lower, upper
}

// callCell is the word for a point of a chart.
func callCell(points []quality.TrendPoint, i int) any {
	if !hasBaseline(points) {
		return "nothing to compare with"
	}
	switch judge(points, i) {
	case worse:
		return exhibit.Cell{Value: "worse", Mark: exhibit.Higher}
	case better:
		return exhibit.Cell{Value: "better", Mark: exhibit.Lower}
	case mixed:
		return exhibit.Cell{Value: "signals both ways", Mark: exhibit.Signal}
	case usual:
		return "no more than chance"
	}
	return "not yet to be judged"
}

func monthAndBefore(a About) (now, before time.Time) { return a.From, a.From.AddDate(0, -1, 0) }

// workTable is what was done in the month and in the one before.
func workTable(a About) *exhibit.Table {
	now, before := monthAndBefore(a)
	v, w := a.Volume, a.Before
	return &exhibit.Table{Columns: joined(exhibit.Column{Name: "what"}, counts(exhibit.Answer, [2]string{"now", now.Format("2006-01")},
		[2]string{"before", before.Format("2006-01")})), Rows: exhibit.Given(
		[]any{"Jobs opened", v.Opened, w.Opened}, []any{"Jobs closed", v.Closed, w.Closed},
		[]any{"of these, calibrated", v.CalibratedClosed, w.CalibratedClosed}, []any{"Calibration tasks", v.Tasks, w.Tasks},
		[]any{"Calibration attempts", v.Attempts, w.Attempts}, []any{"Vehicles that came back (counted)", v.Returns, w.Returns})}
}

// reworkTable looks the work done again up on its own sheet, which may have been sorted since.
func reworkTable(a About, lines []quality.ReworkLine) *exhibit.Table {
	now, before := monthAndBefore(a)
	found := func(column string) string {
		return fmt.Sprintf("IFERROR(INDEX({rework!%s:},MATCH({month},{rework!month:},0)),0)", column)
	}
	return &exhibit.Table{Columns: []exhibit.Column{{Name: "month", Type: exhibit.Month}, {Name: "hours", Type: exhibit.Hours, Formula: found("hours")},
		{Name: "attempts", Type: exhibit.Count, Formula: found("attempts")}, {Name: "without_end", Heading: "Without an end", Type: exhibit.Count, Formula: found("without_end")}},
		Rows: exhibit.Each([]time.Time{now, before}, func(month time.Time) []any {
			sum := ReworkIn(lines, month.Format("2006-01"))
			return []any{month, sum.Hours, sum.Attempts, sum.WithoutEnd}
		})}
}
