package answer

import (
	"fmt"
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/queries"
)

// Gaps counts findings of each kind in the month and in those before.
func Gaps(a About, tallies []quality.Tally) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "kinds", Title: "Gaps by kind", Sheet: exhibit.Sheet{Name: "Evidence gaps", Keep: 1, Prose: 60,
		About: "Gaps in the record by kind, month by month"}}
	months := a.Months()
	before := months[:len(months)-1]
	rows, total := gapRows(tallies, months)
	e.Says = []string{gapSays(a, total, int64(len(before)))}
	columns := joined(exhibit.Column{Name: "gap"}, drawn(exhibit.Column{Name: "kind"}), exhibit.Column{Name: "now", Heading: "In " + a.monthWords(), Type: exhibit.Count,
		Formula: "{m" + months[len(months)-1] + "}"}, counts(exhibit.Figure, [2]string{"jobs", "Jobs"}))
	if len(before) > 0 {
		columns = append(columns, exhibit.Column{Name: "before", Heading: "A month before, on average", Type: exhibit.Hours, Rank: exhibit.Figure,
			Formula: "({m" + strings.Join(before, "}+{m") + fmt.Sprintf("})/%d", len(before))})
	}
	columns = append(columns, exhibit.Column{Name: "dismissed", Heading: "Dismissed in " + a.monthWords(), Type: exhibit.Count, Rank: exhibit.Detail})
	for _, month := range months {
		columns = append(columns, drawn(exhibit.Column{Name: "m" + month, Heading: month, Type: exhibit.Count}))
	}
	columns = append(columns, exhibit.Column{Name: "means", Heading: "What it means", Type: exhibit.Prose, Rank: exhibit.Detail})
	e.Table = &exhibit.Table{Caption: "Findings by kind", Columns: columns, Rows: exhibit.Given(rows...)}
	return e
}

func gapSays(a About, total, months int64) string {
	said := fmt.Sprintf("%s in %s, with %s closed and %s opened.", say.Sentence(say.NoneOr(total, "gap", "gaps")), a.monthWords(),
		say.NoneOr(a.Volume.Closed, "job", "jobs"), say.Count(a.Volume.Opened))
	if months == 0 {
		return said + " There is no earlier month on record to compare with."
	}
	return said + fmt.Sprintf(" The average is over the %s before. A gap in the record is not proof that the work was not done.", say.One(months, "one month",
		say.Count(months)+" months"))
}

// gapRows are the kinds that occur, with their counts month by month.
func gapRows(tallies []quality.Tally, months []string) (rows [][]any, total int64) {
	last := months[len(months)-1]
	for _, kind := range queries.OnPage("evidence") {
		found, jobs, dismissed, sum := map[string]int64{}, int64(0), int64(0), int64(0)
		for _, tally := range tallies {
			if tally.Kind != kind.Name {
				continue
			}
			found[tally.Month] += tally.Findings
			if tally.Month == last {
				jobs, dismissed = jobs+tally.Jobs, dismissed+tally.Dismissed
			}
		}
		name := exhibit.Cell{Value: kind.Title}
		if found[last] > 0 {
			name.Link = "#" + kind.Name
		}
		row := []any{name, kind.Name, found[last], jobs}
		for _, month := range months[:len(months)-1] {
			sum += found[month]
		}
		if len(months) > 1 {
			row = append(row, float64(sum)/float64(len(months)-1))
		}
		row = append(row, dismissed)
		for _, month := range months {
			row = append(row, found[month])
		}
		total += found[last]
		if found[last]+sum > 0 {
			rows = append(rows, append(row, kind.Means))
		}
	}
	return rows, total
}

// GapsByShop compares what each shop leaves out.
func GapsByShop(a About, gaps []quality.Gap) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "shops", Title: "What each shop leaves out, over twelve months"}
	if len(gaps) == 0 {
		e.Says = []string{"No calibrated job was closed in these months."}
		return e
	}
	e.Says = []string{"Share of the calibrated jobs closed in " + a.twelve() + " that have the gap; a job with two gaps of a kind counts once, and dismissed findings do not."}
	own := usualShare
	own.countHeading, own.nHeading = "Jobs with it", "Calibrated jobs"
	e.Table = &exhibit.Table{Caption: "Calibrated jobs with a gap, by shop", Columns: joined(exhibit.Column{Name: "gap", Says: kindTitle}, exhibit.Column{Name: "shop"}, own.columns()),
		Rows: exhibit.Each(gaps, func(g quality.Gap) []any {
			low, high := wilson(g.Count, g.Jobs)
			return []any{g.Kind, g.Shop, g.Count, g.Jobs, rateOf(g.Count, g.Jobs), low, high}
		})}
	e.Sheet = exhibit.Sheet{Name: "Gaps by shop", Keep: 2, About: "Share of the calibrated jobs with a gap, by shop"}
	return e
}

// Digits shows last digits that are uneven: a habit of writing or a display, never more than a question.
func Digits(a About, listed []quality.DigitRow) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "digits", Title: "Last digits of written values, over twelve months"}
	var tested, uneven int64
	for _, row := range listed {
		if row.P != nil {
			tested++
		}
		if row.IsPreference() {
			uneven++
		}
	}
	if tested == 0 {
		e.Says = []string{"No technician wrote enough values of one quantity to look at their last digits."}
		return e
	}
	e.Says = []string{fmt.Sprintf("Values that are read off and written down end in every digit about equally often, and in 0 or 5 one time in five. %s of %s looked at "+
		"%s uneven (q < 0.05).", say.Sentence(say.OrNone(uneven)), say.Several(tested, "series", "series"), say.One(uneven, "is", "are")),
		"Uneven digits can come from a display that rounds or from a habit of writing. They are no sign of a wrong reading."}
	columns := joined(exhibit.Column{Name: "technician"}, exhibit.Column{Name: "quantity", Type: exhibit.Word}, exhibit.Column{Name: "unit"},
		counts(exhibit.Depth, [2]string{"decimals", "Decimals"}), counts(exhibit.Figure, [2]string{"n", "n"}), counts(exhibit.Depth, [2]string{"left_out", "Left out"}))
	for digit := range 10 {
		columns = append(columns, drawn(exhibit.Column{Name: fmt.Sprintf("d%d", digit), Heading: fmt.Sprintf("Ends in %d", digit), Type: exhibit.Count}))
	}
	columns = joined(columns, exhibit.Column{Name: "five_share", Heading: "Ending in 0 or 5", Type: exhibit.Share, Formula: "({d0}+{d5})/{n}"},
		exhibit.Column{Name: "chi2", Heading: "Chi-squared", Type: exhibit.Ratio, Rank: exhibit.Depth}, exhibit.Column{Name: "p", Type: exhibit.Probability, Rank: exhibit.Detail},
		exhibit.Column{Name: "q", Type: exhibit.Probability}, exhibit.Column{Name: "call"})
	e.Table = &exhibit.Table{Caption: "Last digits by technician and quantity", All: a.yearCommand("plumbline query digits"), Columns: columns,
		Rows: exhibit.Each(listed, digitCells)}
	e.Sheet = exhibit.Sheet{Name: "Last digits", Keep: 2, About: "How often measured values end in each digit, by technician and quantity"}
	return e
}

func digitCells(d quality.DigitRow) []any {
	row := []any{d.Technician, d.Quantity, d.Unit, d.Places, d.N, d.LeftOut}
	for _, n := range d.Counts {
		row = append(row, n)
	}
	call := exhibit.Cell{}
	if d.IsPreference() {
		call = exhibit.Cell{Value: "uneven", Mark: exhibit.Signal}
	}
	five := any(nil)
	if d.N > 0 {
		five = d.FiveShare
	}
	return append(row, five, d.Chi2, d.P, d.Q, call)
}
