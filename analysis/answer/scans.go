package answer

import (
	"fmt"
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// ScanFlow is what became of the trouble codes, month by month.
func ScanFlow(a About, months []quality.ScanMonth) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "flow", Title: "Cleared, remaining, new"}
	now := quality.ScanMonth{Month: a.Month}
	for _, month := range months {
		if month.Month == a.Month {
			now = month
		}
	}
	e.Says = []string{scanSays(a, now)}
	left := func(name, heading string) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Type: exhibit.Count}
	}
	e.Table = &exhibit.Table{Caption: "Trouble codes before and after calibration", Latest: true, Columns: joined(exhibit.Column{Name: "month", Type: exhibit.Month},
		left("jobs", "Jobs scanned after"), left("compared", "Compared"), left("before", "Codes before"), left("cleared", "Cleared"),
		exhibit.Column{Name: "cleared_share", Heading: "Cleared share", Type: exhibit.Share, Formula: "{cleared}/{before}", Rank: exhibit.Depth},
		left("remaining", "Remaining"), left("new", "New"), left("no_pre_scan", "No scan before"),
		exhibit.Column{Name: "left", Heading: "Left open", Type: exhibit.Count, Formula: "{remaining}+{new}+{no_pre_scan}", Rank: exhibit.Depth},
		exhibit.Column{Name: "left_per_job", Heading: "Left open a job", Type: exhibit.PerUnit, Formula: "{left}/{jobs}", Rank: exhibit.Depth},
		left("stored", "Stored only")),
		Rows: exhibit.Each(months, func(m quality.ScanMonth) []any {
			return []any{m.Month, m.Jobs, m.Compared, m.FaultsBefore, m.Cleared, rateOf(m.Cleared, m.FaultsBefore), m.Remaining, m.New, m.NoPreScan, m.Left(),
				rateOf(m.Left(), m.Jobs), m.StillStored}
		})}
	e.Drawing = &exhibit.Drawing{Title: fmt.Sprintf("%s left open in %s", say.Sentence(say.NoneOr(now.Left(), "code", "codes")), a.monthWords()), Native: true,
		Alt:    "Trouble codes left open by month: new, remaining, without a scan before",
		Across: exhibit.Axis{Column: "month", Scale: exhibit.Names}, Up: exhibit.Axis{Type: exhibit.Count},
		Label: func(i int) string {
			m := months[i]
			return fmt.Sprintf("%s: %s new, %s remaining, %s without a scan before, in %s", say.Month(m.Month), say.Count(m.New), say.Count(m.Remaining),
				say.Count(m.NoPreScan), say.Several(m.Jobs, "scanned job", "scanned jobs"))
		},
		Series: []exhibit.Series{{Name: "new", Column: "new", Look: exhibit.FirstStack}, {Name: "remaining", Column: "remaining", Look: exhibit.SecondStack},
			{Name: "no scan before", Column: "no_pre_scan", Look: exhibit.ThirdStack}}}
	e.Sheet = exhibit.Sheet{Name: "Post-scan faults", Keep: 1, About: "Codes cleared, remaining and new after calibration, by month"}
	return e
}

func scanSays(a About, now quality.ScanMonth) string {
	if now.Jobs == 0 {
		return "No calibrated job was scanned afterwards in " + a.monthWords() + "."
	}
	said := fmt.Sprintf("%s scanned after calibration in %s, %s of them with a scan before to compare with.",
		say.Sentence(say.Several(now.Jobs, "job was", "jobs were")), a.monthWords(), say.OrNone(now.Compared))
	if now.FaultsBefore == 0 {
		said += " No code was read before."
	} else {
		said += fmt.Sprintf(" Of %s read before, %s cleared.", say.Several(now.FaultsBefore, "code", "codes"), say.OrNone(now.Cleared)+say.One(now.Cleared, " was", " were"))
	}
	return said + fmt.Sprintf(" Open after: %s remaining, %s new, %s without a scan before to tell.", say.Count(now.Remaining), say.Count(now.New), say.Count(now.NoPreScan))
}

// Modules shows which modules keep codes, over twelve months for there are few in one.
func Modules(a About, listed []quality.ScanModule) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "modules", Title: "Which modules, over twelve months"}
	if len(listed) == 0 {
		e.Says = []string{"No trouble code was read before or after a calibration in these months."}
		return e
	}
	e.Says = []string{"Modules that keep the most open codes come first. The share cleared is of all codes that were cleared or left open."}
	e.Table = &exhibit.Table{Caption: "Trouble codes by system and module, " + a.twelve(), All: a.yearCommand("plumbline findings --kind post_scan_fault"),
		Columns: joined(exhibit.Column{Name: "module"}, exhibit.Column{Name: "system", Type: exhibit.Word},
			counts(exhibit.Figure, [2]string{"jobs", "Jobs"}, [2]string{"new", "New"}, [2]string{"remaining", "Remaining"}, [2]string{"no_pre_scan", "No scan before"}),
			exhibit.Column{Name: "left", Heading: "Left open", Type: exhibit.Count, Formula: "{new}+{remaining}+{no_pre_scan}", Rank: exhibit.Depth},
			counts(exhibit.Figure, [2]string{"cleared", "Cleared"}),
			exhibit.Column{Name: "cleared_share", Heading: "Cleared share", Type: exhibit.Share, Formula: "{cleared}/({cleared}+{left})", Rank: exhibit.Depth},
			beside(exhibit.Column{Name: "codes", Heading: "Codes left open", Type: exhibit.Prose, Says: shortList})),
		Rows: exhibit.Each(listed, func(m quality.ScanModule) []any {
			system := "other"
			if m.System != nil {
				system = *m.System
			}
			return []any{m.Module, system, m.Jobs, m.New, m.Remaining, m.NoPreScan, m.Left(), m.Cleared, rateOf(m.Cleared, m.Cleared+m.Left()), m.Codes}
		})}
	e.Sheet = exhibit.Sheet{Name: "Modules", Keep: 1, About: "Which modules keep trouble codes"}
	return e
}

// shortList keeps the first dozen of a list joined by commas.
func shortList(list string) string { return say.Few(strings.Split(list, ", "), 12) }
