package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// A ReworkSum is the work done again in one month, by cause and together.
type ReworkSum struct {
	Month                             string
	Attempts, WithoutEnd              int64
	Hours, RepeatHours, ComebackHours float64
}

// ReworkIn adds up one month.
func ReworkIn(lines []quality.ReworkLine, month string) ReworkSum {
	sum := ReworkSum{Month: month}
	for _, line := range lines {
		if line.Month != month {
			continue
		}
		sum.Attempts, sum.WithoutEnd, sum.Hours = sum.Attempts+line.Attempts, sum.WithoutEnd+line.WithoutEnd, sum.Hours+line.Hours
		switch line.Cause {
		case quality.RepeatCause:
			sum.RepeatHours += line.Hours
		case quality.ComebackCause:
			sum.ComebackHours += line.Hours
		}
	}
	return sum
}

// Rework is the work done again by month and cause, with its cost at a rate that the reader of a workbook may change.
func Rework(a About, lines []quality.ReworkLine) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "rework", Title: "What it cost to do it again", Sheet: exhibit.Sheet{Name: "Rework", Keep: 1,
		About: "Hours of work done again by month and cause; cost at a labor rate that can be changed"}}
	months := a.Months()
	sums := make([]ReworkSum, len(months))
	for i, month := range months {
		sums[i] = ReworkIn(lines, month)
	}
	e.Says = reworkSays(a, lines, sums[len(sums)-1])
	of := func(name, heading string, t exhibit.Type, formula string) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Type: t, Formula: formula}
	}
	e.Table = &exhibit.Table{Caption: "Work done again by month", Latest: true, Columns: joined(of("month", "Month", exhibit.Month, ""),
		of("repeat_hours", "Repeats, h", exhibit.Hours, ""), of("comeback_hours", "Comebacks, h", exhibit.Hours, ""),
		of("hours", "Hours", exhibit.Hours, "{repeat_hours}+{comeback_hours}"), counts(exhibit.Figure, [2]string{"attempts", "Attempts"},
			[2]string{"without_end", "Without an end"}), costColumn()),
		Rows: exhibit.Each(sums, func(s ReworkSum) []any {
			return []any{s.Month, s.RepeatHours, s.ComebackHours, s.Hours, s.Attempts, s.WithoutEnd, a.cost(s.Hours)}
		})}
	if a.LaborRate == nil {
		e.Table.Columns[len(e.Table.Columns)-1].Only = exhibit.Files | exhibit.Sheets
	}
	e.Drawing = &exhibit.Drawing{Title: fmt.Sprintf("%.1f hours of rework in %s", sums[len(sums)-1].Hours, a.monthWords()), Native: true,
		Alt:    "Hours of work done again by month, repeats and comebacks stacked",
		Across: exhibit.Axis{Column: "month", Scale: exhibit.Names}, Up: exhibit.Axis{Type: exhibit.Hours, Name: "hours"},
		Label: func(i int) string {
			return fmt.Sprintf("%s: %.1f hours in %s", say.Month(months[i]), sums[i].Hours, say.Several(sums[i].Attempts, "attempt", "attempts"))
		},
		Series: []exhibit.Series{{Name: "repeats", Column: "repeat_hours", Look: exhibit.SecondStack}, {Name: "comebacks", Column: "comeback_hours", Look: exhibit.FirstStack}}}
	e.Parts = []exhibit.Exhibit{{Name: "labor", Title: "Change the yellow cell to see another cost", Table: &exhibit.Table{
		Columns: []exhibit.Column{{Name: "labor_rate", Heading: "Labor rate an hour", Type: exhibit.Input, Only: exhibit.Sheets},
			{Name: "currency", Only: exhibit.Sheets}},
		Rows: exhibit.Given([]any{a.LaborRate, a.Currency})}}}
	return e
}

// costColumn is hours at the labor rate that a reader of a workbook may change, or write there first.
func costColumn() exhibit.Column {
	return exhibit.Column{Name: "cost", Heading: "Cost of rework", Type: exhibit.Money, Formula: `IF(labor_rate="","",{hours}*labor_rate)`, Open: true}
}

// cost is hours at the labor rate; with none a workbook works it out once one is written there.
func (a About) cost(hours float64) any {
	if a.LaborRate == nil {
		return nil
	}
	return hours * *a.LaborRate
}

func reworkSays(a About, lines []quality.ReworkLine, now ReworkSum) []string {
	if len(lines) == 0 {
		return []string{"No work was done again in the last thirteen months."}
	}
	if now.Attempts == 0 {
		return []string{"No work was done again in " + a.monthWords() + "."}
	}
	said := fmt.Sprintf("%s took %.1f hours in %s: attempts that follow another of the same method, and all attempts on a vehicle that had come back.",
		say.Sentence(say.Several(now.Attempts, "attempt done again", "attempts done again")), now.Hours, a.monthWords())
	if now.WithoutEnd > 0 {
		said += fmt.Sprintf(" %s no end on record and %s no hours, so the true figure is higher.",
			say.Sentence(say.Several(now.WithoutEnd, "of them has", "of them have")), say.One(now.WithoutEnd, "adds", "add"))
	}
	if money := a.Money(now.Hours); money != "" {
		said += " At " + a.Money(1) + " an hour that is " + money + "."
	} else {
		said += " No labor rate was given, so there is no money figure."
	}
	return []string{said}
}
