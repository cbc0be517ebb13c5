package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// daily is the curves read day by day, a column each, as a drawing needs them. With one curve alone its interval is there
// too.
func daily(curves []quality.Curve, window int) *exhibit.Table {
	t := &exhibit.Table{Columns: []exhibit.Column{{Name: "day", Heading: "Day", Type: exhibit.Count}}}
	for _, c := range curves {
		t.Columns = append(t.Columns, exhibit.Column{Name: "share_" + c.Cohort, Heading: cohortName(c.Cohort), Type: exhibit.Share,
			Formula: fmt.Sprintf(`SUMPRODUCT(MAX(({curve-steps!group:}="%s")*({curve-steps!day:}<={day})*{curve-steps!share:}))`, cohortName(c.Cohort))})
	}
	if len(curves) == 1 {
		t.Columns = append(t.Columns, drawn(exhibit.Column{Name: "low", Heading: "Interval low", Type: exhibit.Share}),
			drawn(exhibit.Column{Name: "high", Heading: "Interval high", Type: exhibit.Share}))
	}
	t.Rows = exhibit.Rows{Len: window + 1, At: func(day int) []any {
		row := []any{int64(day)}
		var low, high any
		for _, c := range curves {
			point, known, err := c.By(float64(day))
			if err != nil || !known {
				row = append(row, nil)
				continue
			}
			row, low, high = append(row, point.Share), point.Low, point.High
		}
		if len(curves) == 1 {
			row = append(row, low, high)
		}
		return row
	}}
	return t
}

func curveDrawing(curves []quality.Curve, window int, title string) *exhibit.Drawing {
	d := &exhibit.Drawing{Title: title, Alt: "Comeback curve, share of jobs by days since they were closed", Rows: daily(curves, window),
		Across: exhibit.Axis{Column: "day", Name: "days since the job was closed", Max: float64(window)}, Up: exhibit.Axis{Type: exhibit.Share}}
	for i, c := range curves {
		name := "come back"
		if c.Cohort != "" {
			name = fmt.Sprintf("%s (n %s)", cohortName(c.Cohort), say.Count(int64(c.N)))
		}
		d.Series = append(d.Series, exhibit.Series{Name: name, Column: "share_" + c.Cohort, Look: exhibit.CurveLook(i)})
	}
	if len(curves) == 1 {
		d.Series = append(d.Series, exhibit.Series{Name: "95 % interval", Column: "low", Look: exhibit.Limit},
			exhibit.Series{Name: "95 % interval", Column: "high", Look: exhibit.Limit})
	}
	return d
}

// CurveSheets are the curves day by day and the steps that they are made of, for a workbook.
func CurveSheets(a About, all *quality.Curve, bySource []quality.Curve) ([]exhibit.Exhibit, error) {
	if all == nil {
		return nil, nil
	}
	curves := append([]quality.Curve{*all}, bySource...)
	var points []quality.CurvePoint
	for _, c := range curves {
		of, err := c.Points()
		if err != nil {
			return nil, err
		}
		points = append(points, of...)
	}
	steps := exhibit.Exhibit{Name: "curve-steps", Title: "How the comeback curve is made",
		Sheet: exhibit.Sheet{Name: "Curve steps", Keep: 1, About: "The Kaplan-Meier steps behind the comeback curve"},
		Says: []string{"One row a day, counted from the closing of the job, on which at least one came back. The share still out is the one before times the " +
			"part of those followed that did not come back (Kaplan & Meier 1958). The rows build on each other: do not sort them."},
		Table: &exhibit.Table{Columns: curveColumns(), Rows: exhibit.Each(points, curveRow), Ordered: true}}
	days := exhibit.Exhibit{Name: "curve-days", Title: "Share of jobs that have come back, by days since they were closed",
		Sheet: exhibit.Sheet{Name: "Comeback curve", Keep: 1, About: "The comeback curve of all jobs and by glass source, with a chart"},
		Says:  []string{"Curves drawn apart do not make a cause: the glass sheets compare like with like. A curve ends where fewer than 10 jobs are still followed."},
		Table: daily(curves, a.Scope.WindowDays)}
	days.Drawing = curveDrawing(curves, a.Scope.WindowDays, fmt.Sprintf("Share come back within %d days", a.Scope.WindowDays))
	days.Drawing.Rows, days.Drawing.Native = nil, true
	return []exhibit.Exhibit{days, steps}, nil
}
