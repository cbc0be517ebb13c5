package review

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"plumbline/analysis/quality"
)

// returnLeaf lists the return visits of twelve months.
func (r Review) returnLeaf() *leaf {
	listed := r.Comebacks.Year
	g := &grid{rows: len(listed), sorts: true, columns: []gridColumn{{"Returned", asMoment}, {"Shop", asText}, {"Job", asText}, {"VIN", asText},
		{"Make", asText}, {"Model", asText}, {"Class", asText}, {"Counted", asText}, {"Decision", asText}, {"Days", asDays}, {"Reason", asText},
		{"Complaint", asLongText}, {"Earlier shop", asText}, {"Earlier job", asText}, {"Earlier job closed", asMoment},
		{"Earlier technician", asText}, {"Glass supplier then", asText}, {"Finding", asText}}}
	g.row = func(i int) []any {
		back := listed[i]
		return []any{back.OpenedAt, back.Shop, back.JobNo, back.VIN, back.Make, back.Model, back.Class,
			map[bool]string{true: "yes", false: "no"}[back.IsCounted], back.Decision, back.Days, back.Reason, back.Complaint, back.PriorShop,
			back.PriorJobNo, back.PriorClosedAt, back.PriorTechnician, back.Supplier, back.Finding}
	}
	l := &leaf{name: "Comebacks", title: "Return visits in the twelve months to " + monthName(r.About.Month), keep: 3, grids: []*grid{g},
		about: "Return visits of twelve months with both visits, counted or not",
		says: []string{"A return counts when the shop names the earlier job itself (linked), when the complaint is about a system calibrated then " +
			"(probable), or when a person confirmed it; a dismissed one does not."}}
	return l.lay()
}

// curveLeaves are the comeback curve by day, and the steps that it is made of.
func (r Review) curveLeaves() []*leaf {
	if r.Comebacks.Curve == nil {
		return nil
	}
	curves := append([]quality.Curve{*r.Comebacks.Curve}, r.Comebacks.BySource...)
	steps := stepLeaf(curves)
	days := r.dayLeaf(curves, steps.grids[0])
	return []*leaf{days, steps}
}

// A placedStep is a step with the curve that it belongs to.
type placedStep struct{ curve, step int }

// stepLeaf shows how the curve is made: after each day with a comeback, the share still out is the share before times
// the part of those at risk that did not come back.
func stepLeaf(curves []quality.Curve) *leaf {
	var places []placedStep
	for c := range curves {
		for s := range curves[c].Steps {
			places = append(places, placedStep{c, s})
		}
	}
	g := &grid{rows: len(places), columns: []gridColumn{{"Jobs", asText}, {"Day", asStandard}, {"At risk", asCount}, {"Came back", asCount},
		{"Still out", asShare}, {"Have come back", asShare}, {"95 % low", asShare}, {"95 % high", asShare}}}
	g.row = func(i int) []any {
		place := places[i]
		step := curves[place.curve].Steps[place.step]
		text := "{Still out^}*(1-{Came back}/{At risk})"
		if place.step == 0 {
			text = "1-{Came back}/{At risk}"
		}
		row := []any{cohortName(curves[place.curve]), step.Day, step.AtRisk, step.Events, live{text, step.Survival},
			live{"1-{Still out}", 1 - step.Survival}, nil, nil}
		if step.HasInterval {
			row[6], row[7] = 1-step.Interval.High, 1-step.Interval.Low
		}
		return row
	}
	l := &leaf{name: "Curve steps", title: "How the comeback curve is made", keep: 1, grids: []*grid{g},
		about: "The Kaplan-Meier steps behind the comeback curve",
		says: []string{"One row a day, counted from the closing of the job, on which at least one came back. At risk are the jobs followed up to then " +
			"(Kaplan & Meier 1958). The rows build on each other: do not sort them."}}
	return l.lay()
}

func cohortName(c quality.Curve) string {
	if c.Cohort == "" {
		return "all"
	}
	return sourceName(c.Cohort)
}

// dayLeaf looks the curves up day by day, for the chart.
func (r Review) dayLeaf(curves []quality.Curve, steps *grid) *leaf {
	window := r.About.Scope.WindowDays
	g := &grid{rows: window + 1, columns: []gridColumn{{"Day", asCount}}}
	first, found := 0, make([]string, len(curves))
	for c, curve := range curves {
		g.columns = append(g.columns, gridColumn{cohortName(curve), asShare})
		if n := len(curve.Steps); n > 0 {
			found[c] = fmt.Sprintf("IF({Day}<%s,0,LOOKUP({Day},%s,%s))", steps.at("Day", first), steps.span("Day", first, first+n-1),
				steps.span("Have come back", first, first+n-1))
			first += n
		}
	}
	g.row = func(i int) []any {
		row := []any{int64(i)}
		for c, curve := range curves {
			if found[c] == "" {
				row = append(row, 0.0)
				continue
			}
			row = append(row, live{found[c], 1 - curve.At(float64(i))})
		}
		return row
	}
	l := &leaf{name: "Comeback curve", title: "Share of jobs that have come back, by days since they were closed", keep: 1, grids: []*grid{g},
		about: "The comeback curve of all jobs and by glass source, with a chart", says: r.curveSays(curves)}
	l.lay()
	chart := bookChart{kind: excelize.Scatter, title: fmt.Sprintf("Share come back within %d days", window), categories: g.whole("Day"), format: "0%",
		alt: "Comeback curve of all jobs and by glass source", days: window}
	for c, curve := range curves {
		name := cohortName(curve)
		chart.lines = append(chart.lines, chartLine{name: g.heading(name), values: g.whole(name), color: curveColors[(c+5)%len(curveColors)],
			dash: curveDashes[c%len(curveDashes)]})
	}
	l.charts = []bookChart{chart}
	return l
}

var curveDashes = []excelize.LineDashType{excelize.LineDashSolid, excelize.LineDashDash, excelize.LineDashDot, excelize.LineDashLgDash,
	excelize.LineDashLgDashDot}

func (r Review) curveSays(curves []quality.Curve) []string {
	said := "Jobs that could not be followed for the whole time count for as long as they were. "
	for _, curve := range curves {
		said += fmt.Sprintf("%s: %s, %s so far. ", sentence(cohortName(curve)), several(curve.N, "job", "jobs"),
			several(curve.Events, "comeback", "comebacks"))
	}
	return []string{said, "Curves drawn apart do not make a cause: the glass sheets compare like with like."}
}
