package review

import (
	"time"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/quality"
)

// reworkLeaf is the work done again, month by month, with its cost at a rate that the reader may change.
func (r Review) reworkLeaf() *leaf {
	months := r.lastMonths()
	g := &grid{rows: len(months), sorts: true, columns: []gridColumn{{"Month", asMonth}, {"Repeats, hours", asHours},
		{"Comebacks, hours", asHours}, {"Hours", asHours}, {"Attempts", asCount}, {"Without an end", asCount}, {"Cost", asMoney}}}
	g.row = func(i int) []any {
		back := len(months) - 1 - i
		return []any{r.About.From.AddDate(0, -back, 0), reworkHours(r.Failures.Rework, months[i], quality.RepeatCause),
			reworkHours(r.Failures.Rework, months[i], quality.ComebackCause),
			live{"{Repeats, hours}+{Comebacks, hours}", r.reworkValue("Hours", back)}, r.reworkValue("Attempts", back),
			r.reworkValue("Without an end", back), live{`IF(` + laborName + `="","",{Hours}*` + laborName + `)`, r.reworkValue("Cost", back)}}
	}
	var labor any = toned{value: (*float64)(nil), tone: inputTone}
	if r.About.LaborRate != nil {
		labor = *r.About.LaborRate
	}
	costs := &grid{caption: "Change the yellow cell to see another cost", rows: 1, columns: []gridColumn{{"Labor rate an hour", asInput}, {"Currency", asText}},
		row: func(int) []any { return []any{labor, r.About.Currency} }}
	l := &leaf{name: "Rework", title: "What it cost to do it again", keep: 1, grids: []*grid{g, costs},
		about: "Hours of work done again by month and cause; cost at a labor rate that can be changed",
		says: []string{"Attempts that follow another of the same method, and all attempts on a vehicle that had come back. Attempts without an end on " +
			"record add no hours, so the true figure is higher where there are any. Cost is hours times the labor rate below the table."}}
	l.lay()
	l.names = []bookName{{laborName, costs.at("Labor rate an hour", 0)}}
	l.charts = []bookChart{{kind: excelize.ColStacked, title: "Hours of rework by month and cause", categories: g.whole("Month"), dates: true, format: "0",
		alt: "Hours of work done again by month, repeats and comebacks stacked", lines: []chartLine{
			{name: g.heading("Repeats, hours"), values: g.whole("Repeats, hours"), color: blue},
			{name: g.heading("Comebacks, hours"), values: g.whole("Comebacks, hours"), color: rust}}}}
	return l
}

// reworkValue is one figure of the month that lies some months back; nil for a cost without a labor rate.
func (r Review) reworkValue(column string, back int) any {
	sum := reworkIn(r.Failures.Rework, r.About.From.AddDate(0, -back, 0).Format("2006-01"))
	switch column {
	case "Hours":
		return sum.hours
	case "Attempts":
		return sum.attempts
	case "Without an end":
		return sum.withoutEnd
	}
	if r.About.LaborRate == nil {
		return nil
	}
	return sum.hours * *r.About.LaborRate
}

// monthOf reads a period's name as a day; a name that is none stays text.
func monthOf(period string) any {
	t, err := time.Parse("2006-01", period)
	if err != nil {
		return period
	}
	return t
}
