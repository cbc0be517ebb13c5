package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// summaryMeasures are the shares of a shop's or insurer's row.
var summaryMeasures = []struct {
	name, heading, n string
	of               func(quality.GroupSummary) *quality.Measure
	called           bool
}{
	{"not_first_pass", "Not first pass", "Tasks", func(s quality.GroupSummary) *quality.Measure { return s.NotFirstPass }, true},
	{"comeback", "Comebacks", "Jobs followed", func(s quality.GroupSummary) *quality.Measure { return s.Comeback }, true},
	{"post_scan_fault", "Faults left", "Jobs scanned twice", func(s quality.GroupSummary) *quality.Measure { return s.PostScanFault }, true},
	{"gap", "Gaps", "Calibrated jobs", func(s quality.GroupSummary) *quality.Measure { return s.Gap }, true},
	{"rework", "Done again", "Attempts", func(s quality.GroupSummary) *quality.Measure { return s.Again }, false},
}

// GroupRows is shops or insurers, one row each: jobs, first pass, comebacks, faults left, gaps, rework, with intervals and calls.
func GroupRows(a About, by string, rows []quality.GroupSummary) exhibit.Exhibit {
	name := map[string]string{"shop": "By shop", "insurer": "By insurer"}[by]
	e := exhibit.Exhibit{Name: "by-" + by, Title: name, Sheet: exhibit.Sheet{Name: name, Keep: 1,
		About: say.Sentence(GroupingName(by)) + "s, one row each: jobs, first pass, comebacks, faults left, gaps, rework"}}
	if len(rows) == 0 {
		e.Says = []string{"No job on record names " + article(GroupingName(by)) + "."}
		return e
	}
	e.Says = []string{fmt.Sprintf("%s in %s. Calls are made like with like, within the same kind of work and vehicle; gaps, which have no like, by the others together. A share of few "+
		"swings widely: read the interval before the rate.", say.Sentence(say.Several(int64(len(rows)), GroupingName(by), GroupingName(by)+"s")), a.twelve())}
	if len(rows) == 1 {
		e.Says = []string{fmt.Sprintf("One %s in %s, with no other to be compared with.", GroupingName(by), a.twelve())}
	}
	for _, row := range rows {
		for _, m := range summaryMeasures {
			if measure := m.of(row); m.called && measure != nil && (measure.Call == quality.Higher || measure.Call == quality.Lower) {
				e.Points = append(e.Points, fmt.Sprintf("%s: %s %s, %s (q %s)", row.Group, lowerFirst(m.heading), measure.Call, say.OutOf(measure.Count, measure.N), say.Probability(measure.Q)))
			}
		}
	}
	columns := joined(exhibit.Column{Name: "group", Heading: groupingHeading(by)}, counts(exhibit.Answer, [2]string{"jobs", "Jobs opened"}))
	for _, m := range summaryMeasures {
		s := share{count: m.name + "_count", n: m.name + "_n", rate: m.name + "_rate", low: m.name + "_low", high: m.name + "_high", countHeading: m.heading, nHeading: m.n,
			rateHeading: m.heading + ", rate", prefix: m.heading + ","}
		c := s.columns()
		c[1].Rank, c[3].Rank = exhibit.Figure, exhibit.Detail
		columns = append(columns, c...)
		if m.called {
			columns = append(columns, exhibit.Column{Name: m.name + "_call", Heading: m.heading + ", call", Type: exhibit.Word})
		}
	}
	columns = joined(columns, exhibit.Column{Name: "hours", Heading: "Rework, h", Type: exhibit.Hours}, counts(exhibit.Detail, [2]string{"without_end", "Without an end"}),
		costColumn())
	if a.LaborRate == nil {
		columns[len(columns)-1].Only = exhibit.Files | exhibit.Sheets
	}
	e.Table = &exhibit.Table{Caption: name + ", " + a.twelve(), All: a.yearCommand("plumbline summary --by " + by), Columns: columns,
		Rows: exhibit.Each(rows, func(s quality.GroupSummary) []any {
			return append(summaryRow(s), s.AgainHours, s.WithoutEnd, a.cost(s.AgainHours))
		})}
	e.Notes = []string{commandNote(e.Table.All)}
	return e
}

func summaryRow(s quality.GroupSummary) []any {
	row := []any{s.Group, s.Jobs}
	for _, m := range summaryMeasures {
		measure := m.of(s)
		if measure == nil {
			row = append(row, nil, nil, nil, nil, nil)
			if m.called {
				row = append(row, nil)
			}
			continue
		}
		row = append(row, measure.Count, measure.N, measure.Rate(), measure.Low, measure.High)
		if m.called {
			row = append(row, callMark(measure.Call))
		}
	}
	return row
}

// callMark is a call with its shape.
func callMark(call quality.Call) exhibit.Cell {
	return exhibit.Cell{Value: string(call), Mark: map[quality.Call]exhibit.Mark{quality.Higher: exhibit.Higher, quality.Lower: exhibit.Lower}[call]}
}

func lowerFirst(words string) string {
	if words == "" {
		return ""
	}
	return string([]rune(words)[0]|0x20) + words[1:]
}
