package review

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
	"plumbline/queries"
)

func (r Review) failurePage() (page, error) {
	p := page{Lead: []string{"Which calibrations did not pass the first time, on which systems, and what was left unfinished."}}
	if r.About.IsEmpty() {
		return p, nil
	}
	trend, err := r.firstPassTrend()
	if err != nil {
		return p, err
	}
	systems, err := r.systemSection()
	if err != nil {
		return p, err
	}
	again, err := r.reworkSection()
	if err != nil {
		return p, err
	}
	codes, err := r.codeSection()
	p.Sections = []section{trend, systems, codes, r.changeSection(), r.waitSection(), r.clockSection(), again, r.pageFindings("repeats", "Findings of the month")}
	return p, err
}

func (r Review) firstPassTrend() (section, error) {
	points := r.Failures.Trend
	s := section{ID: "trend", Heading: "Not first pass, month by month"}
	if len(points) == 0 {
		s.Says = []string{"No calibration is on record."}
		return s, nil
	}
	s.Says = trendSays(points, "share of tasks that are not first pass", "A task is one system in one job. It is first pass when "+
		"every attempt completed and no method was done twice.")
	var err error
	s.Chart, err = controlChart{points: points, unit: "tasks", scale: 100, chart: chart{ID: chartID("repeats", "trend"),
		Title: trendTitle(points, "The share not first pass"), Alt: "Control chart of tasks that were not first pass"}}.draw()
	s.Table = trendTable("Tasks not first pass, by month", points, "tasks", percentOr)
	s.Notes = []string{commandNote(r.About.allCommand("plumbline trend --outcome not_first_pass"))}
	return s, err
}

// systemSection compares the month's systems with the twelve months before.
func (r Review) systemSection() (section, error) {
	month := monthName(r.About.Month)
	s := section{ID: "systems", Heading: "By system"}
	if len(r.Failures.Systems) == 0 {
		s.Says = []string{"No calibration is on record in " + month + "."}
		return s, nil
	}
	s.Says = []string{"Small numbers swing widely: read the interval before the rate, and the twelve months before beside it."}
	s.Table = &table{Caption: "Tasks not first pass by system, " + month, Columns: append(words("System"),
		columns(true, "Rate", "Not first pass", "Tasks", "95 % interval", "Repeated after a pass", "Left unfinished",
			"Twelve months before")...)}
	for _, now := range r.Failures.Systems {
		interval, err := stats.Wilson(now.Missed(), stats.Level95)
		if err != nil {
			return s, err
		}
		s.Table.Rows = append(s.Table.Rows, []cell{text(plain(now.System)), number(percent(now.Missed().Rate())),
			number(count(now.NotFirstPass)), number(count(now.Tasks)), number(between(&interval.Low, &interval.High)),
			number(count(now.AfterPass)), number(count(now.Unresolved)), number(r.systemBefore(now.System))})
	}
	return s, nil
}

func (r Review) systemBefore(system string) string {
	for _, before := range r.Failures.SystemsBefore {
		if before.System == system {
			return fmt.Sprintf("%s (%s of %s)", percent(before.Missed().Rate()), count(before.NotFirstPass), count(before.Tasks))
		}
	}
	return "–"
}

// pageFindings lists the month's findings of the kinds that a page shows.
func (r Review) pageFindings(page, heading string) section {
	kinds := queries.OnPage(page)
	return r.findingSection("findings", heading, r.ofKinds(kinds...), strings.Join(queries.Names(kinds), ","))
}

// ofKinds picks the month's findings of some kinds, in their order.
func (r Review) ofKinds(kinds ...queries.Kind) []quality.Finding {
	names := queries.Names(kinds)
	return slices.DeleteFunc(slices.Clone(r.Findings), func(f quality.Finding) bool { return !slices.Contains(names, f.Kind) })
}

// findingSection lists findings of one page.
func (r Review) findingSection(id, heading string, findings []quality.Finding, kinds string) section {
	month := monthName(r.About.Month)
	s := section{ID: id, Heading: heading}
	if len(findings) == 0 {
		s.Says = []string{"None in " + month + "."}
		return s
	}
	s.Says = []string{fmt.Sprintf("%s in %s, the gravest first. The last column is the finding's number: plumbline decide NUMBER "+
		"confirm (or dismiss) --by NAME --note WHY keeps a decision for good.",
		sentence(several(int64(len(findings)), "finding", "findings")), month)}
	s.Table = r.findingTable("Findings of "+month, findings, kinds)
	return s
}
