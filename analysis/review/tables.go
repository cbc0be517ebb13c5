package review

import (
	"fmt"

	"strings"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// trendTable is the table beside a control chart, the latest period first.
func trendTable(caption string, points []quality.TrendPoint, unit string, asRate func(*float64) string) *table {
	t := &table{Caption: caption, Columns: append(append(words("Month"),
		columns(true, "Rate", "Count", sentence(unit), "Limits")...), words("Signals")...)}
	for i := len(points) - 1; i >= 0; i-- {
		p := points[i]
		row := []cell{text(p.Period), number(asRate(p.Rate)), number(count(p.Count)), number(count(p.N)),
			number(limits(p, asRate)), text("")}
		switch {
		case p.N == 0 && p.Units == 0:
			row[5] = text("nothing on record")
		case !p.IsMatured():
			row[5] = marked("not fully followed: "+count(p.N)+" of "+count(p.Units), "open")
		case len(p.Signals) > 0:
			row[5] = marked("▲ "+signalNames(p.Signals), "signal")
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func limits(p quality.TrendPoint, asRate func(*float64) string) string {
	if p.Lower == nil || p.Upper == nil || !p.IsMatured() {
		return "–"
	}
	return asRate(p.Lower) + " – " + asRate(p.Upper)
}

// signalNames are the signals in short; the words above the chart explain them.
func signalNames(signals []stats.Signal) string {
	names := make([]string, len(signals))
	for i, signal := range signals {
		names[i] = plain(string(signal))
	}
	return strings.Join(names, "; ")
}

// twoPlaces writes occurrences a unit.
func twoPlaces(x *float64) string { return decimals(x, 2) }

// groupTable is the table beside a funnel or a ranked chart, as the command compare prints it.
func (r Review) groupTable(caption string, c quality.Comparison) *table {
	t := &table{Caption: caption, Columns: append(append(words(sentence(groupingName(c.By))),
		columns(true, "Rate", "Count", "n", "95 % interval", "Shrunken", "p", "Expected, like with like",
			"q, like with like")...), words("Call")...)}
	for _, g := range c.Groups {
		call := text(callName(g))
		if g.IsDifferent() {
			call = marked(callName(g), "signal")
		}
		t.Rows = append(t.Rows, []cell{text(g.Group), number(percent(g.Rate)), number(count(g.Count)), number(count(g.N)),
			number(between(&g.WilsonLow, &g.WilsonHigh)), number(percent(g.Shrunken)), number(probability(&g.P)),
			number(fmt.Sprintf("%.1f of %s", g.Expected, count(g.LikeN))), number(probability(g.LikeQ)), call})
	}
	return t.cut(r.About.allCommand("plumbline compare --by " + c.By + " --outcome " + string(c.Outcome)))
}

// callName says a group's call, by different marks.
func callName(g quality.Group) string {
	switch {
	case g.Call == quality.Higher:
		return "▲ higher"
	case g.Call == quality.Lower:
		return "▼ lower"
	case g.Call == quality.NoneAlike:
		return "no like to compare with"
	case g.Q == nil:
		return "fewer than 10"
	}
	return ""
}

// findingTable lists findings with the commands that act on them.
func (r Review) findingTable(caption string, findings []quality.Finding, kinds string) *table {
	t := &table{Caption: caption,
		Columns: append(words("Finding", "Vehicle and job", "System or subject", "When", "Severity", "Details"),
			words("Decision")...)}
	for _, f := range findings {
		t.Rows = append(t.Rows, []cell{text(findingName(f)), r.jobCell(f), text(subjectOf(f)), text(moment(f.At)),
			marked(f.Severity, f.Severity), text(or(f.Detail)), decisionCell(f)})
	}
	return t.cut(r.About.monthCommand("plumbline findings --kind " + kinds))
}

// jobCell names the vehicle and the job, with a link to the vehicle's page where it has one.
func (r Review) jobCell(f quality.Finding) cell {
	name := f.Shop + "/" + f.JobNo
	if f.VIN != nil {
		name = *f.VIN + ", " + name
	}
	if page := vehiclePage(f); r.hasVehicle(page) {
		return link(name, "vehicles/"+page)
	}
	return text(name)
}

func (r Review) hasVehicle(page string) bool {
	for _, vehicle := range r.Vehicles {
		if vehicle.Page == page {
			return true
		}
	}
	return false
}

func subjectOf(f quality.Finding) string {
	if f.Subject == nil {
		return systemOf(f)
	}
	if f.System == nil {
		return plain(*f.Subject)
	}
	return plain(*f.Subject) + " (" + systemOf(f) + ")"
}

// decisionCell shows what was decided, or how to decide.
func decisionCell(f quality.Finding) cell {
	if f.Decision != nil {
		return marked(*f.Decision, "decided")
	}
	return command(f.Finding)
}
