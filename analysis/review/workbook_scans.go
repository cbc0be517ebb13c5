package review

import (
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// scanLeaves are what became of the trouble codes, by month and by module.
func (r Review) scanLeaves() []*leaf { return []*leaf{r.scanMonthLeaf(), r.moduleLeaf()} }

func (r Review) scanMonthLeaf() *leaf {
	months := r.Scans.Months
	g := &grid{rows: len(months), sorts: true, columns: []gridColumn{{"Month", asMonth}, {"Jobs scanned after", asCount}, {"Compared", asCount},
		{"Codes before", asCount}, {"Cleared", asCount}, {"Cleared share", asShare}, {"Remaining", asCount}, {"New", asCount},
		{"No scan before", asCount}, {"Left open", asCount}, {"Left open a job", asPerUnit}, {"Stored only", asCount}}}
	g.row = func(i int) []any {
		m := months[i]
		var perJob any
		if m.Jobs > 0 {
			perJob = float64(m.Left()) / float64(m.Jobs)
		}
		return []any{monthOf(m.Month), m.Jobs, m.Compared, m.FaultsBefore, m.Cleared,
			liveShare("Cleared", "Codes before", stats.Proportion{Count: m.Cleared, N: m.FaultsBefore}), m.Remaining, m.New, m.NoPreScan,
			live{"{Remaining}+{New}+{No scan before}", m.Left()}, live{`IF({Jobs scanned after}=0,"",{Left open}/{Jobs scanned after})`, perJob},
			m.StillStored}
	}
	l := &leaf{name: "Post-scan faults", title: "Trouble codes before and after calibration", keep: 1, grids: []*grid{g},
		about: "Codes cleared, remaining and new after calibration, by month",
		says: []string{"Open codes are active, pending or unknown; a code that is only stored is counted and never flagged. A vehicle with an open fault in a " +
			"system that brakes or steers is not to be handed over on the strength of a report."}}
	l.lay()
	if len(months) > 0 {
		c := bookChart{kind: excelize.ColStacked, title: "Codes left open by month", categories: g.whole("Month"), dates: true, format: "0",
			alt: "Trouble codes left open by month: new, remaining, without a scan before"}
		for i, name := range []string{"New", "Remaining", "No scan before"} {
			c.lines = append(c.lines, chartLine{name: g.heading(name), values: g.whole(name), color: []string{rust, blue, grey}[i]})
		}
		l.charts = []bookChart{c}
	}
	return l
}

func (r Review) moduleLeaf() *leaf {
	listed := r.Scans.Year
	g := &grid{rows: len(listed), sorts: true, columns: []gridColumn{{"Module", asText}, {"System", asText}, {"Jobs", asCount}, {"New", asCount},
		{"Remaining", asCount}, {"No scan before", asCount}, {"Left open", asCount}, {"Cleared", asCount}, {"Cleared share", asShare},
		{"Codes left open", asLongText}}}
	g.row = func(i int) []any { return moduleRow(listed[i]) }
	l := &leaf{name: "Modules", title: "Trouble codes by module, twelve months to " + monthName(r.About.Month), keep: 1, grids: []*grid{g},
		about: "Which modules keep trouble codes",
		says:  []string{"Modules that keep the most open codes come first. The share is of all codes that were cleared or left open."}}
	return l.lay()
}

func moduleRow(m quality.ScanModule) []any {
	system := any("none that assists the driver")
	if m.System != nil {
		system = plain(*m.System)
	}
	cleared := live{`IF({Cleared}+{Left open}=0,"",{Cleared}/({Cleared}+{Left open}))`, nil}
	if all := m.Cleared + m.Left(); all > 0 {
		cleared.value = float64(m.Cleared) / float64(all)
	}
	return []any{m.Module, system, m.Jobs, m.New, m.Remaining, m.NoPreScan, live{"{New}+{Remaining}+{No scan before}", m.Left()}, m.Cleared,
		cleared, m.Codes}
}
