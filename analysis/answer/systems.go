package answer

import (
	"plumbline/analysis/exhibit"
	"plumbline/analysis/quality"
)

// Systems compares the month's systems with the twelve months before.
func Systems(a About, now, before []quality.SystemResult) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "systems", Title: "Not first pass by system"}
	if len(now) == 0 {
		e.Says = []string{"No calibration is on record in " + a.monthWords() + "."}
		return e
	}
	e.Says = []string{"Tasks not first pass in " + a.monthWords() + ", and in the twelve months before. Small numbers swing widely: read the interval before the rate."}
	earlier := map[string]quality.SystemResult{}
	for _, b := range before {
		earlier[b.System] = b
	}
	past := share{count: "count_before", n: "n_before", rate: "rate_before", countHeading: "Count before", nHeading: "Tasks before", rateHeading: "Rate before",
		rank: exhibit.Detail}
	own := usualShare
	own.countHeading, own.nHeading = "Not first pass", "Tasks"
	e.Table = &exhibit.Table{Caption: "Tasks not first pass by system, " + a.monthWords(),
		Columns: joined(exhibit.Column{Name: "system", Type: exhibit.Word}, own.columns(),
			counts(exhibit.Detail, [2]string{"after_pass", "Repeated after a pass"}, [2]string{"unresolved", "Left unfinished"}, [2]string{"attempts", "Attempts"}),
			past.columns()),
		Rows: exhibit.Each(now, func(s quality.SystemResult) []any {
			low, high := wilson(s.NotFirstPass, s.Tasks)
			b := earlier[s.System]
			return []any{s.System, s.NotFirstPass, s.Tasks, rateOf(s.NotFirstPass, s.Tasks), low, high, s.AfterPass, s.Unresolved, s.Attempts, b.NotFirstPass,
				b.Tasks, rateOf(b.NotFirstPass, b.Tasks)}
		})}
	e.Drawing = &exhibit.Drawing{Title: "Share not first pass by system, with its interval", Alt: "Rates with 95 % intervals, by system", Native: true,
		Up: exhibit.Axis{Column: "system", Scale: exhibit.Names}, Across: exhibit.Axis{Type: exhibit.Share},
		Series: []exhibit.Series{{Name: "95 % interval", Column: "low", To: "high", Look: exhibit.Span}, {Name: "month", Column: "rate", Look: exhibit.Dot},
			{Name: "twelve months before", Column: "rate_before", Look: exhibit.HollowDot}}}
	e.Sheet = exhibit.Sheet{Name: "Systems", Keep: 1, About: "Repeats and failures of the month by system, beside the twelve months before"}
	return e
}
