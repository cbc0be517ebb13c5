package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// cohortName is a curve's jobs for a reader.
func cohortName(cohort string) string {
	if cohort == "" {
		return "all"
	}
	return sourceName(cohort)
}

// Curve is how soon jobs come back: all together, and by glass source where there are two sources or more.
func Curve(a About, all *quality.Curve, bySource []quality.Curve) (exhibit.Exhibit, error) {
	e := exhibit.Exhibit{Name: "curve", Title: "How soon"}
	if all == nil || all.N == 0 {
		e.Says = []string{"No calibrated job has been closed yet."}
		return e, nil
	}
	last, err := lastPoint(*all, a.Scope.WindowDays)
	if err != nil {
		return e, err
	}
	e.Says = []string{curveSays(*all, last, a.Scope.WindowDays)}
	e.Notes = []string{commandNote(a.allCommand("plumbline curve"))}
	if e.Table, err = curveTable([]quality.Curve{*all}, a.Scope.WindowDays); err != nil {
		return e, err
	}
	e.Drawing = curveDrawing([]quality.Curve{*all}, a.Scope.WindowDays, curveFinding(last))
	if len(bySource) < 2 {
		return e, nil
	}
	part := exhibit.Exhibit{Name: "curve-source", Title: "By glass source"}
	apart, err := curvesApart(bySource)
	if err != nil {
		return e, err
	}
	part.Says = []string{apart + "Curves drawn apart do not make a cause: the glass page compares like with like and says what the numbers allow."}
	if part.Table, err = curveTable(bySource, a.Scope.WindowDays); err != nil {
		return e, err
	}
	part.Drawing = curveDrawing(bySource, a.Scope.WindowDays, "The comeback curve by glass source")
	e.Parts = []exhibit.Exhibit{part}
	return e, nil
}

// lastPoint is what the curve says of its last day.
func lastPoint(c quality.Curve, window int) (quality.CurvePoint, error) {
	point, _, err := c.By(min(c.LastDay, float64(window)))
	return point, err
}

func curveFinding(last quality.CurvePoint) string {
	if last.Day < 1 && last.Share == 0 {
		return "No job has been followed for a whole day yet"
	}
	if last.Share == 0 {
		return fmt.Sprintf("None has come back within %s", say.Several(int64(last.Day), "day", "days"))
	}
	return fmt.Sprintf("About %s have come back within %s", say.Percent(last.Share), say.Several(int64(last.Day), "day", "days"))
}

// curveSays reads the curve where it ends, and says why it ends there.
func curveSays(c quality.Curve, last quality.CurvePoint, window int) string {
	if last.Day < 1 && last.Share == 0 {
		return curveFinding(last) + "."
	}
	interval := ""
	if last.Low != nil && last.High != nil {
		interval = fmt.Sprintf(" (95%s%% interval %s)", say.NBSP, say.Between(last.Low, last.High))
	}
	said := fmt.Sprintf("%s%s, estimated from %s, %s of which came back so far. Jobs that could not be followed for the whole time count for as long as "+
		"they were.", curveFinding(last), interval, say.Several(int64(c.N), "calibrated closed job", "calibrated closed jobs"), say.OrNone(int64(c.Events)))
	switch {
	case c.LastDay >= float64(window):
	case len(c.Jobs) < 10:
		said += fmt.Sprintf(" The curve ends at day %d, the longest that any job has been followed.", int64(c.LastDay))
	default:
		said += fmt.Sprintf(" The curve ends at day %d: beyond, fewer than 10 jobs are still followed, and it says nothing of later days.", int64(c.LastDay))
	}
	return said
}

// curvesApart says what the log-rank test makes of the curves; nothing where it cannot be made.
func curvesApart(curves []quality.Curve) (string, error) {
	compared, err := quality.LogRank(curves)
	if err != nil || !compared.Test.Defined {
		return "", err
	}
	verdict := "no further apart than chance would set them"
	if compared.Test.P < 0.05 {
		verdict = "further apart than chance would set them"
	}
	return fmt.Sprintf("The curves are %s (log-rank test, p %s). ", verdict, say.Probability(&compared.Test.P)), nil
}

// curveColumns are those of the command, for any days.
func curveColumns() []exhibit.Column {
	return joined(exhibit.Column{Name: "group", Heading: "Jobs", Says: cohortName}, exhibit.Column{Name: "day", Heading: "Day", Type: exhibit.Days},
		counts(exhibit.Figure, [2]string{"followed", "Followed so far"}, [2]string{"returned", "Came back that day"}),
		drawn(exhibit.Column{Name: "still_out", Heading: "Still out", Type: exhibit.Share,
			Formula: "IF({group}={group^},{still_out^},1)*(1-{returned}/{followed})"}),
		exhibit.Column{Name: "share", Heading: "Have come back", Type: exhibit.Share, Formula: "1-{still_out}"},
		interval(exhibit.Share, exhibit.Detail, "95 % interval", "low", "95 % low", "high", "95 % high"))
}

func curveRow(p quality.CurvePoint) []any {
	return []any{cohortName(p.Group), p.Day, p.Followed, p.Returned, 1 - p.Share, p.Share, p.Low, p.High}
}

// curveTable reads curves at a month, two months and the window's end, as far as they go, and where they end.
func curveTable(curves []quality.Curve, window int) (*exhibit.Table, error) {
	t := &exhibit.Table{Caption: "Share of jobs that have come back", Columns: curveColumns()}
	var points []quality.CurvePoint
	for _, c := range curves {
		days := []float64{min(30, float64(window)), min(60, float64(window)), float64(window)}
		if c.LastDay < float64(window) {
			days = append(days, float64(int64(c.LastDay)))
		}
		seen := map[float64]bool{}
		for _, day := range days {
			point, known, err := c.By(day)
			if err != nil {
				return nil, err
			}
			if known && !seen[day] {
				points = append(points, point)
			}
			seen[day] = true
		}
	}
	t.Rows = exhibit.Each(points, curveRow)
	return t, nil
}
