package review

import (
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/quality"
)

// A trendSheet says how one control chart is laid out.
type trendSheet struct {
	name, title, subject string
	outcome              quality.Outcome
	points               []quality.TrendPoint
	as                   form // of the rates
	matures              bool // units are counted only once they have been followed
}

// trendLeaves are the control charts' numbers, a sheet an outcome.
func (r Review) trendLeaves() []*leaf {
	var leaves []*leaf
	for _, t := range []trendSheet{
		{"Not first pass", "Tasks not first pass, month by month", "The share not first pass", quality.NotFirstPass, r.Failures.Trend,
			asShare, false},
		{"Comeback rate", "Jobs that came back, by month of closing", "The comeback rate", quality.Comeback, r.Comebacks.Trend,
			asShare, true},
		{"Faults left", "Jobs with a new or remaining fault, month by month", "The share of jobs with a fault left",
			quality.PostScanFault, r.Scans.Share, asShare, false},
		{"Open faults", "Open faults a scanned job, month by month", "The number of open faults a job", quality.OpenFaults,
			r.Scans.PerJob, asPerUnit, false},
	} {
		leaves = append(leaves, t.leaf())
	}
	return leaves
}

func (t trendSheet) leaf() *leaf {
	g := &grid{columns: t.columns(), rows: len(t.points), row: t.row, sorts: true}
	l := &leaf{name: t.name, title: t.title, grids: []*grid{g}, keep: 1,
		about: "Control chart: " + t.title,
		says: []string{"n are " + outcomeUnits[t.outcome] + ". The centre is count over n of the baseline months together; the limits lie three " +
			"standard errors from it, times sigma z where months differ from each other more than chance explains (Laney 2002)."}}
	if t.matures {
		l.says = append(l.says, "A month whose jobs have not all been followed for the whole window is marked, stands in no baseline and is "+
			"never called: its rate can still rise.")
	}
	l.lay()
	if len(t.points) > 0 {
		l.charts = []bookChart{t.chart(g)}
	}
	return l
}

// The last columns are what the chart draws: a month without a value there has no mark.
const (
	drawnRate   = "Rate of the month"
	drawnSignal = "Rate with a signal"
	drawnOpen   = "Rate not yet followed"
)

func (t trendSheet) columns() []gridColumn {
	columns := []gridColumn{{"Month", asMonth}, {"Count", asCount}, {"n", asCount}, {"Rate", t.as}}
	if t.matures {
		columns = append(columns, gridColumn{"Closed jobs", asCount}, gridColumn{"Matured share", asShare})
	}
	columns = append(columns, gridColumn{"Baseline", asText}, gridColumn{"Centre", t.as}, gridColumn{"Lower limit", t.as},
		gridColumn{"Upper limit", t.as}, gridColumn{"Sigma z", asStandard}, gridColumn{"Signals", asText}, gridColumn{drawnRate, t.as},
		gridColumn{drawnSignal, t.as})
	if t.matures {
		columns = append(columns, gridColumn{drawnOpen, t.as})
	}
	return columns
}

func (t trendSheet) row(i int) []any {
	p := t.points[i]
	row := []any{p.Starts, p.Count, p.N, liveRate("Count", "n", p.Rate)}
	if t.matures {
		row = append(row, p.Units, live{`IF({Closed jobs}=0,"",{n}/{Closed jobs})`, p.MaturedShare})
	}
	row = append(row, map[bool]string{true: "yes", false: "no"}[p.InBaseline])
	row = append(row, t.limits(p)...)
	drawn := make([]any, 3)
	called := any(nil)
	switch {
	case p.N == 0 && p.Units == 0:
		called = "nothing on record"
	case !p.IsMatured():
		called = toned{"not yet followed: " + count(p.N) + " of " + count(p.Units), openTone}
		drawn[2] = toned{live{"{Rate}", p.Rate}, openTone}
		if p.N == 0 {
			drawn[2] = nil
		}
	default:
		drawn[0] = live{"{Rate}", p.Rate}
		if len(p.Signals) > 0 {
			called = toned{"▲ " + signalsOf(t.points, i), signalTone}
			drawn[1] = toned{live{"{Rate}", p.Rate}, signalTone}
		}
	}
	row = append(append(row, called), drawn[:2]...)
	if t.matures {
		row = append(row, drawn[2])
	}
	return row
}

// limits are centre, limits and sigma z. Limits are for months that can be called.
func (t trendSheet) limits(p quality.TrendPoint) []any {
	limits := make([]any, 4)
	if p.Center == nil {
		return limits
	}
	limits[0] = live{t.centerText(), p.Center}
	limits[3] = p.SigmaZ
	if p.Lower == nil || p.Upper == nil || !p.IsMatured() {
		return limits
	}
	limits[1], limits[2] = p.Lower, p.Upper // exact limits of counts have no formula
	return limits
}

// centerText pools the baseline, or all months where it holds none.
func (t trendSheet) centerText() string {
	if hasBaseline(t.points) {
		return `SUMIF({Baseline:},"yes",{Count:})/SUMIF({Baseline:},"yes",{n:})`
	}
	return "SUM({Count:})/SUM({n:})"
}

func (t trendSheet) chart(g *grid) bookChart {
	format := numberFormats[t.as]
	if t.as == asShare {
		format = "0%"
	}
	c := bookChart{kind: excelize.Line, title: trendTitle(t.points, t.subject), categories: g.whole("Month"), dates: true, format: format,
		alt: "Control chart: " + t.title + ", with centre and limits",
		lines: []chartLine{
			{name: g.heading(drawnRate), values: g.whole(drawnRate), color: blue, marker: "circle"},
			{name: g.heading("Centre"), values: g.whole("Centre"), color: ink},
			{name: g.heading("Lower limit"), values: g.whole("Lower limit"), color: grey, dash: excelize.LineDashDash},
			{name: g.heading("Upper limit"), values: g.whole("Upper limit"), color: grey, dash: excelize.LineDashDash},
			{name: g.heading(drawnSignal), values: g.whole(drawnSignal), color: rust, marker: "triangle", bare: true},
		}}
	if t.matures {
		c.lines = append(c.lines, chartLine{name: g.heading(drawnOpen), values: g.whole(drawnOpen), color: purple, marker: "diamond",
			hollow: true, bare: true})
	}
	return c
}
