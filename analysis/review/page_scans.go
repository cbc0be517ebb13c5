package review

import (
	"fmt"
	"strings"

	"plumbline/analysis/quality"
)

func (r Review) scanPage() (page, error) {
	p := page{Lead: []string{"Which trouble codes were still open when the vehicle was scanned after calibration, which were new, " +
		"and which were cleared.",
		"A stored code is shown in the counts and never flagged. A vehicle with an open fault in a system that brakes or steers is " +
			"not to be handed over on the strength of a report."}}
	if r.About.IsEmpty() {
		return p, nil
	}
	if len(r.Scans.Months) == 0 {
		p.Sections = []section{{ID: "none", Heading: "No scans", Says: []string{"No calibrated job has a scan after calibration."}}}
		return p, nil
	}
	flow, err := r.scanFlow()
	if err != nil {
		return p, err
	}
	share, err := r.scanShare()
	if err != nil {
		return p, err
	}
	perJob, err := r.scanPerJob()
	p.Sections = []section{flow, share, perJob, r.moduleSection(),
		r.pageFindings("post-scan-faults", "Open faults of the month")}
	return p, err
}

// scanFlow is what became of the codes, month by month.
func (r Review) scanFlow() (section, error) {
	now := quality.ScanMonth{Month: r.About.Month}
	for _, month := range r.Scans.Months {
		if month.Month == r.About.Month {
			now = month
		}
	}
	s := section{ID: "flow", Heading: "Cleared, remaining, new"}
	if now.Jobs == 0 {
		s.Says = []string{"No calibrated job was scanned afterwards in " + monthName(r.About.Month) + "."}
	} else {
		s.Says = []string{fmt.Sprintf("%s scanned after calibration, %s of them with a scan before to compare with. Of %s read before, "+
			"%s cleared; %s remained open, %s new, and %s open without a scan before to tell.",
			sentence(several(now.Jobs, "job was", "jobs were")), count(now.Compared), several(now.FaultsBefore, "code", "codes"),
			wasWere(now.Cleared), wasOnly(now.Remaining), wasWere(now.New), wasWere(now.NoPreScan))}
	}
	var err error
	s.Chart, err = scanChart(chart{ID: chartID("post-scan-faults", "flow"), Alt: "Open trouble codes by month and class",
		Title: fmt.Sprintf("%s left open in %s", sentence(several(now.Left(), "code", "codes")), monthName(r.About.Month))}, r.Scans.Months)
	s.Table = &table{Caption: "Trouble codes before and after calibration", Columns: append(words("Month"),
		columns(true, "Jobs scanned after", "Compared", "Codes before", "Cleared", "Remaining", "New", "No scan before",
			"Stored only")...)}
	for i := len(r.Scans.Months) - 1; i >= 0; i-- {
		m := r.Scans.Months[i]
		row := []cell{text(m.Month)}
		for _, n := range []int64{m.Jobs, m.Compared, m.FaultsBefore, m.Cleared, m.Remaining, m.New, m.NoPreScan, m.StillStored} {
			row = append(row, number(count(n)))
		}
		s.Table.Rows = append(s.Table.Rows, row)
	}
	return s, err
}

func wasWere(n int64) string {
	return count(n) + map[bool]string{true: " was", false: " were"}[n == 1]
}

func wasOnly(n int64) string { return count(n) }

func (r Review) scanShare() (section, error) {
	points := r.Scans.Share
	s := section{ID: "share", Heading: "Jobs with a fault left"}
	if len(points) == 0 {
		s.Says = []string{"No calibrated job was scanned before and after."}
		return s, nil
	}
	s.Says = trendSays(points, "share of jobs with a new or remaining fault", "")
	var err error
	s.Chart, err = controlChart{points: points, unit: "jobs", scale: 100, chart: chart{ID: chartID("post-scan-faults", "share"),
		Title: trendTitle(points, "The share of jobs with a fault left"), Alt: "Control chart of jobs with a fault left"}}.draw()
	s.Table = trendTable("Jobs with a new or remaining open fault, by month", points, "jobs scanned before and after", percentOr)
	s.Notes = []string{commandNote(r.About.allCommand("plumbline trend --outcome post_scan_fault"))}
	return s, err
}

func (r Review) scanPerJob() (section, error) {
	points := r.Scans.PerJob
	s := section{ID: "per-job", Heading: "Open faults per job"}
	if len(points) == 0 {
		s.Says = []string{"No calibrated job was scanned afterwards."}
		return s, nil
	}
	s.Says = []string{"Counts every open code of any class over all jobs scanned after calibration, also those without a scan before: " +
		"one vehicle can have several."}
	var err error
	s.Chart, err = controlChart{points: points, unit: "jobs", scale: 1, chart: chart{ID: chartID("post-scan-faults", "per-job"),
		Title: trendTitle(points, "The number of open faults per job"), Alt: "Control chart of open faults a job"}}.draw()
	s.Table = trendTable("Open faults a scanned job, by month", points, "jobs scanned after", twoPlaces)
	s.Notes = []string{commandNote(r.About.allCommand("plumbline trend --outcome open_faults"))}
	return s, err
}

// moduleSection shows which modules keep codes, over twelve months for there are few in one.
func (r Review) moduleSection() section {
	s := section{ID: "modules", Heading: "Which modules, over twelve months"}
	t := &table{Caption: "Trouble codes by system and module, twelve months to " + monthName(r.About.Month),
		Columns: append(append(words("Module", "System"), columns(true, "Jobs", "New", "Remaining", "No scan before", "Cleared")...),
			words("Codes left open")...)}
	for _, m := range r.Scans.Year {
		system := "other"
		if m.System != nil {
			system = plain(*m.System)
		}
		t.Rows = append(t.Rows, []cell{text(m.Module), text(system), number(count(m.Jobs)), number(count(m.New)),
			number(count(m.Remaining)), number(count(m.NoPreScan)), number(count(m.Cleared)), text(shortList(or(m.Codes)))})
	}
	if len(t.Rows) == 0 {
		s.Says = []string{"No trouble code was read before or after a calibration in these months."}
		return s
	}
	s.Says = []string{"Modules that keep the most open codes come first."}
	s.Table = t.cut(r.About.yearCommand("plumbline findings --kind post_scan_fault"))
	return s
}

// shortList keeps the first dozen of a list joined by commas.
func shortList(list string) string {
	items := strings.Split(list, ", ")
	if len(items) <= 12 {
		return list
	}
	return strings.Join(items[:12], ", ") + fmt.Sprintf(" and %d more", len(items)-12)
}
