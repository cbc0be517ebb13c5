package review

import (
	"fmt"

	"plumbline/analysis/quality"
)

// reworkSection shows the work done again by month and cause.
func (r Review) reworkSection() (section, error) {
	s := section{ID: "rework", Heading: "What it cost to do it again"}
	if len(r.Failures.Rework) == 0 {
		s.Says = []string{"No work was done again in the last thirteen months."}
		return s, nil
	}
	sum := reworkIn(r.Failures.Rework, r.About.Month)
	said := fmt.Sprintf("%s took %.1f hours in %s: attempts that follow another of the same method, and all attempts on a "+
		"vehicle that had come back.", sentence(several(sum.attempts, "attempt done again", "attempts done again")), sum.hours,
		monthName(r.About.Month))
	if sum.withoutEnd > 0 {
		said += fmt.Sprintf(" %s no end on record and %s no hours, so the true figure is higher.",
			sentence(several(sum.withoutEnd, "of them has", "of them have")), map[bool]string{true: "adds", false: "add"}[sum.withoutEnd == 1])
	}
	if money := r.About.money(sum.hours); money != "" {
		said += " At " + r.About.money(1) + " an hour that is " + money + "."
	} else {
		said += " No labor rate was given, so there is no money figure."
	}
	s.Says = []string{said}
	s.Table = r.reworkTable()
	var err error
	s.Chart, err = reworkChart(chart{ID: chartID("repeats", "rework"), Alt: "Hours of work done again by month and cause",
		Title: fmt.Sprintf("%.1f hours of rework in %s", sum.hours, monthName(r.About.Month))}, r.Failures.Rework, r.lastMonths())
	return s, err
}

// lastMonths are the thirteen that end with the review's, without those before the first job on record.
func (r Review) lastMonths() []string {
	var months []string
	for back := 12; back >= 0; back-- {
		starts := r.About.From.AddDate(0, -back, 0)
		if first := r.About.Scope.FirstOpened; first == nil || lastMoment(starts).After(*first) || back == 0 {
			months = append(months, starts.Format("2006-01"))
		}
	}
	return months
}

func (r Review) reworkTable() *table {
	t := &table{Caption: "Work done again by month", Columns: append(words("Month"),
		columns(true, "Repeats, h", "Comebacks, h", "Hours", "Attempts", "Without an end")...)}
	if r.About.LaborRate != nil {
		t.Columns = append(t.Columns, columns(true, "Cost")...)
	}
	months := r.lastMonths()
	for i := len(months) - 1; i >= 0; i-- {
		sum := reworkIn(r.Failures.Rework, months[i])
		row := []cell{text(months[i]), number(fmt.Sprintf("%.1f", reworkHours(r.Failures.Rework, months[i], quality.RepeatCause))),
			number(fmt.Sprintf("%.1f", reworkHours(r.Failures.Rework, months[i], quality.ComebackCause))),
			number(fmt.Sprintf("%.1f", sum.hours)), number(count(sum.attempts)), number(count(sum.withoutEnd))}
		if r.About.LaborRate != nil {
			row = append(row, number(r.About.money(sum.hours)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
