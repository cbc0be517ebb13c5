package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// Drifts shows which stands' measured values moved within their tolerance.
func Drifts(a About, drifts []quality.Drift, views []quality.DriftView, tooMany bool, most int) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "drift", Title: "Measured values by stand or frame"}
	switch {
	case tooMany:
		e.Says = []string{fmt.Sprintf("There are more than %d stands and frames, which is too many to look through here: plumbline onset --by equipment --shop SHOP does "+
			"it shop by shop.", most)}
		return e
	case len(drifts) == 0:
		e.Says = []string{"No stand or frame has two readings with a tolerance on both sides."}
		return e
	}
	var listed []quality.Drift
	unclear := 0
	for _, d := range drifts {
		if d.IsShift() {
			e.Points = append(e.Points, fmt.Sprintf("%s, %s: from %s (n %s) to %s (n %s) about %s (q %s)", d.Group, say.Plain(d.Quantity), say.Number(d.BeforeMean, 2),
				say.Count(d.BeforeN), say.Number(d.AfterMean, 2), say.Count(d.AfterN), say.Day(d.FirstAfter), say.Probability(d.Q)))
		} else if unclear++; unclear > mostUnclear {
			continue
		}
		listed = append(listed, d)
	}
	e.Table = driftTable(listed)
	if unclear > mostUnclear {
		e.Table.Rest = fmt.Sprintf("%s whose shift is not told from chance are not shown here; the workbook has them all.",
			say.Sentence(say.Several(int64(unclear-mostUnclear), "series", "series")))
	}
	e.Says = []string{"No stand's readings are told from standing still (q < 0.05)."}
	if len(e.Points) > 0 {
		e.Says = []string{"Told from standing still (q < 0.05), in half widths of the tolerance:",
			"A shift inside the tolerance breaks no rule. It is the first sign of a stand that moves."}
	}
	for i, view := range views {
		e.Parts = append(e.Parts, driftView(i, view))
	}
	return e
}

// DriftSheet is all series of readings, for a workbook.
func DriftSheet(drifts []quality.Drift) exhibit.Exhibit {
	return exhibit.Exhibit{Name: "drifts", Title: "Did a stand's measured values move?", Table: driftTable(drifts),
		Sheet: exhibit.Sheet{Name: "Drift", Keep: 2, About: "Levels, capability and shifts of measured values by stand"},
		Says: []string{"Values are deviations from the middle of the tolerance in half widths: -1 and 1 are its bounds. Capability is against the tolerance. A shift is " +
			"told where q < 0.05 (Pettitt 1979)."}}
}

func driftTable(drifts []quality.Drift) *exhibit.Table {
	level := func(name, heading string, rank exhibit.Rank) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Type: exhibit.Level, Rank: rank}
	}
	ratio := func(name, heading string, rank exhibit.Rank) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Type: exhibit.Ratio, Rank: rank}
	}
	return &exhibit.Table{Caption: "Measured values in half widths of their tolerance: 0 is its middle, −1 and 1 its bounds", Columns: joined(
		exhibit.Column{Name: "stand", Heading: "Stand or frame"}, exhibit.Column{Name: "quantity", Type: exhibit.Word},
		exhibit.Column{Name: "unit", Rank: exhibit.Depth}, counts(exhibit.Figure, [2]string{"n", "n"}), counts(exhibit.Depth, [2]string{"left_out", "Left out"}),
		counts(exhibit.Figure, [2]string{"outside", "Outside"}),
		exhibit.Column{Name: "outside_share", Heading: "Share outside", Type: exhibit.Share, Formula: "{outside}/{n}", Rank: exhibit.Depth},
		level("mean", "Mean", exhibit.Depth), level("center", "Centre", exhibit.Depth), level("sigma", "Sigma", exhibit.Depth),
		level("lower", "Lower limit", exhibit.Depth), level("upper", "Upper limit", exhibit.Depth), counts(exhibit.Depth, [2]string{"beyond", "Beyond limits"}),
		ratio("cp", "Cp", exhibit.Depth), ratio("cpk", "Cpk", exhibit.Figure), interval(exhibit.Ratio, exhibit.Detail, "Its 95 % interval", "cpk_low", "Cpk low", "cpk_high", "Cpk high"),
		ratio("ppk", "Ppk", exhibit.Depth), exhibit.Column{Name: "last_before", Heading: "Last day before", Type: exhibit.Day, Rank: exhibit.Depth},
		exhibit.Column{Name: "first_after", Heading: "Shifted about", Type: exhibit.Day}, counts(exhibit.Depth, [2]string{"n_before", "n before"}),
		level("mean_before", "Before", exhibit.Figure), counts(exhibit.Depth, [2]string{"n_after", "n after"}), level("mean_after", "After", exhibit.Figure),
		exhibit.Column{Name: "p", Type: exhibit.Probability, Rank: exhibit.Depth}, exhibit.Column{Name: "q", Type: exhibit.Probability}, exhibit.Column{Name: "call"}),
		Rows: exhibit.Each(drifts, func(d quality.Drift) []any {
			call := exhibit.Cell{}
			if d.IsShift() {
				call = exhibit.Cell{Value: "shifted", Mark: exhibit.Signal}
			}
			return []any{d.Group, d.Quantity, d.Unit, d.N, d.LeftOut, d.Outside, rateOf(d.Outside, d.N), d.Mean, d.Center, d.Sigma, d.Lower, d.Upper, d.Beyond, d.Cp,
				d.Cpk, d.CpkLow, d.CpkHigh, d.Ppk, d.LastBefore, d.FirstAfter, d.BeforeN, d.BeforeMean, d.AfterN, d.AfterMean, d.P, d.Q, call}
		})}
}

// mostReadings is how many readings a drawing holds; a stand of a large shop can have a hundred thousand.
const mostReadings = 1500

// driftView draws single readings in their order, with centre, limits and the bounds of the tolerance.
func driftView(i int, view quality.DriftView) exhibit.Exhibit {
	points := view.Points[max(0, len(view.Points)-mostReadings):]
	hidden := func(name string) exhibit.Column {
		return exhibit.Column{Name: name, Type: exhibit.Level, Only: exhibit.Drawings}
	}
	t := &exhibit.Table{Caption: view.Group + ": the readings with a signal, the latest last", Columns: joined(
		exhibit.Column{Name: "at", Heading: "Taken", Type: exhibit.Moment}, exhibit.Column{Name: "job"}, exhibit.Column{Name: "value", Type: exhibit.Level},
		exhibit.Column{Name: "unit"}, exhibit.Column{Name: "deviation", Heading: "In half widths", Type: exhibit.Level},
		exhibit.Column{Name: "signals", Type: exhibit.Word}, hidden("plain"), hidden("above"), hidden("below"), hidden("center"), hidden("lower"), hidden("upper"),
		hidden("spec_low"), hidden("spec_high"))}
	row := func(p quality.DriftPoint) []any {
		marks := make([]any, 3)
		place := 0
		if len(p.Signals) > 0 {
			place = map[bool]int{true: 1, false: 2}[p.Deviation > view.Center]
		}
		marks[place] = p.Deviation
		return append(append([]any{p.TakenAt, p.Shop + "/" + p.JobNo, p.Value, p.Unit, p.Deviation, p.Signals}, marks...), view.Center, view.Lower, view.Upper, -1.0, 1.0)
	}
	drawnRows := &exhibit.Table{Columns: t.Columns, Rows: exhibit.Each(points, row)}
	var signalled []quality.DriftPoint
	for _, p := range points {
		if len(p.Signals) > 0 {
			signalled = append(signalled, p)
		}
	}
	t.Rows = exhibit.Each(signalled, row)
	line := func(name, column string, look exhibit.Look) exhibit.Series {
		return exhibit.Series{Name: name, Column: column, Look: look}
	}
	return exhibit.Exhibit{Name: fmt.Sprintf("drift-%d", i+1), Title: view.Group + ", " + say.Plain(view.Quantity), Table: t,
		Says: []string{fmt.Sprintf("Every reading in order, in half widths of its tolerance, with the limits that the readings before the shift set. %s beyond what chance "+
			"gives, of %s drawn.", say.Sentence(say.Several(int64(len(signalled)), "reading is", "readings are")), say.Count(int64(len(points))))},
		Drawing: &exhibit.Drawing{Title: fmt.Sprintf("%s: %s moved", view.Group, say.Plain(view.Quantity)), Alt: "Chart of individual readings", Rows: drawnRows,
			Across: exhibit.Axis{Column: "at", Scale: exhibit.Time}, Up: exhibit.Axis{Scale: exhibit.Zoomed, Type: exhibit.Level},
			Label: func(k int) string {
				p := points[k]
				return fmt.Sprintf("%s, %s/%s: %g %s, deviation %.2f", say.Moment(&p.TakenAt), p.Shop, p.JobNo, p.Value, p.Unit, p.Deviation)
			},
			Series: []exhibit.Series{line("centre", "center", exhibit.Centre), line("limits of single readings", "lower", exhibit.CurveLimit),
				line("limits of single readings", "upper", exhibit.CurveLimit), line("tolerance", "spec_low", exhibit.Bound), line("tolerance", "spec_high", exhibit.Bound),
				line("reading", "plain", exhibit.Dots), line("signal, higher", "above", exhibit.Beyond), line("signal, lower", "below", exhibit.Under)}}}
}
