package review

import (
	"fmt"
	"slices"

	"plumbline/analysis/quality"
)

// mostUnclear is how many groups are shown whose change is not told from chance.
const mostUnclear = 12

// onsetSection says since when a group's rate is another.
func (r Review) onsetSection() (section, error) {
	s := section{ID: "onset", Heading: "When did it start"}
	t := &table{Caption: "Most likely change points, the clear ones first", Columns: append(append(words("By", "Group", "Last before",
		"First after"), columns(true, "Before", "After", "Difference, points", "p", "q")...), words("Call")...)}
	var changed []string
	looked := 0
	for _, clear := range []bool{true, false} {
		for _, list := range r.People.Onsets {
			for _, onset := range list.Onsets {
				if onset.IsChange() != clear {
					continue
				}
				looked++
				if clear {
					changed = append(changed, onsetSays(onset))
				} else if looked > len(changed)+mostUnclear {
					t.Rest = "Groups whose change is not told from chance are not all shown. All of them: " + r.About.allCommand("plumbline onset --by equipment")
					continue
				}
				t.Rows = append(t.Rows, onsetRow(list.By, onset))
			}
		}
	}
	if looked == 0 {
		s.Says = []string{"No group has the 10 tasks and the ups and downs that it takes to look for a change."}
		return s, nil
	}
	s.Table = t.cut(r.About.allCommand("plumbline onset --by equipment"))
	s.Says = []string{fmt.Sprintf("In each of %s the moment was looked for at which the share of tasks that are not first pass most likely "+
		"changed. None is told from chance (q < 0.05).", several(int64(looked), "group", "groups"))}
	if len(changed) > 0 {
		s.Points = changed
		s.Says = []string{fmt.Sprintf("Told from chance (q < 0.05), of %s looked at:", several(int64(looked), "group", "groups")),
			"A change point says when to look back, not what happened. One cause shows up in every group that shares it: a stand, its bay " +
				"and the people who use it."}
	}
	s.Notes = []string{commandNote(r.About.allCommand("plumbline onset --by equipment"))}
	for _, by := range r.People.TooMany {
		s.Notes = append(s.Notes, fmt.Sprintf("By %s there are more than %d groups, which is too many to look through here: plumbline onset "+
			"--by %s --shop SHOP does it shop by shop.", groupingName(by), mostOnsets, by))
	}
	for i, view := range r.People.Rates {
		drawn, err := onsetChart(chart{ID: chartID("people", fmt.Sprintf("onset-%d", i+1)), Title: r.People.onsetTitle(view),
			Alt: "Weekly rate with its moving average and limits"}, view)
		if err != nil {
			return s, err
		}
		s.More = append(s.More, block{Heading: sentence(groupingName(view.By)) + " " + view.Group, Chart: drawn,
			Says: fmt.Sprintf("Share of tasks that are not first pass, week by week; the moving average is watched against the %s of all groups.",
				percent(view.Expected))})
	}
	return s, nil
}

func onsetSays(o quality.Onset) string {
	said := fmt.Sprintf("%s from %s (%s of %s) to %s (%s of %s) between %s and %s (q %s)", o.Group, percent(o.BeforeRate),
		count(o.BeforeCount), count(o.BeforeN), percent(o.AfterRate), count(o.AfterCount), count(o.AfterN),
		o.LastBefore.Format("2 January 2006"), o.FirstAfter.Format("2 January 2006"), probability(&o.Q))
	if o.Until != nil {
		said += ", until about " + o.Until.Format("2 January 2006")
	}
	return said
}

func onsetRow(by string, o quality.Onset) []cell {
	call := text("")
	if o.IsChange() {
		call = marked("▲ changed", "signal")
	}
	side := func(rate float64, hits, n int64) cell {
		return number(fmt.Sprintf("%s (%s of %s)", percent(rate), count(hits), count(n)))
	}
	return []cell{text(groupingName(by)), text(o.Group), text(o.LastBefore.Format("2006-01-02")), text(o.FirstAfter.Format("2006-01-02")),
		side(o.BeforeRate, o.BeforeCount, o.BeforeN), side(o.AfterRate, o.AfterCount, o.AfterN),
		number(fmt.Sprintf("%s (%s to %s)", signed(o.Difference), signed(o.DiffLow), signed(o.DiffHigh))),
		number(probability(&o.P)), number(probability(&o.Q)), call}
}

// onsetTitle says what is true of the group now: its last stretch against its first.
func (p People) onsetTitle(view quality.OnsetView) string {
	var last quality.Onset
	for _, table := range p.Onsets {
		for _, onset := range table.Onsets {
			if table.By == view.By && onset.Group == view.Group {
				last = onset
			}
		}
	}
	way := "higher than at first"
	switch {
	case last.AfterRate < last.First.Rate():
		way = "lower than at first"
	case last.Change > 1 && last.AfterRate < last.BeforeRate:
		way = "lower again, though higher than at first,"
	}
	return fmt.Sprintf("%s is %s since about %s", view.Group, way, last.FirstAfter.Format("2 January 2006"))
}

// driftSection shows which stands' measured values moved within their tolerance.
func (r Review) driftSection() (section, error) {
	s := section{ID: "drift", Heading: "Measured values by stand or frame"}
	if slices.Contains(r.People.TooMany, "equipment") {
		s.Says = []string{fmt.Sprintf("There are more than %d stands and frames, which is too many to look through here: plumbline onset "+
			"--by equipment --shop SHOP does it shop by shop.", mostOnsets)}
		return s, nil
	}
	if len(r.People.Drifts) == 0 {
		s.Says = []string{"No stand or frame has two readings with a tolerance on both sides."}
		return s, nil
	}
	t := &table{Caption: "Measured values in half widths of their tolerance: 0 is its middle, −1 and 1 its bounds",
		Columns: append(append(words("Stand or frame", "Quantity"), columns(true, "n", "Outside", "Before", "After")...),
			append(words("Shifted about"), append(columns(true, "q", "Cpk", "95 % interval"), words("Call")...)...)...)}
	var shifted []string
	for _, d := range r.People.Drifts {
		call := text("")
		if d.IsShift() {
			call = marked("▲ shifted", "signal")
			shifted = append(shifted, fmt.Sprintf("%s, %s: from %s (n %s) to %s (n %s) about %s (q %s)", d.Group, plain(d.Quantity),
				level(d.BeforeMean), count(d.BeforeN), level(d.AfterMean), count(d.AfterN), d.FirstAfter.Format("2 January 2006"), probability(d.Q)))
		} else if len(t.Rows) >= len(shifted)+mostUnclear {
			t.Rest = "Series whose shift is not told from chance are not all shown. All of them: " + r.About.allCommand("plumbline onset --by equipment")
			continue
		}
		t.Rows = append(t.Rows, []cell{text(d.Group), text(plain(d.Quantity)), number(count(d.N)), number(count(d.Outside)),
			number(level(d.BeforeMean)), number(level(d.AfterMean)), text(d.FirstAfter.Format("2006-01-02")),
			number(probability(d.Q)), number(decimals(d.Cpk, 2)), number(decimals(d.CpkLow, 2) + "–" + decimals(d.CpkHigh, 2)), call})
	}
	s.Table = t.cut(r.About.allCommand("plumbline onset --by equipment"))
	s.Says = []string{"No stand's readings are told from standing still (q < 0.05)."}
	if len(shifted) > 0 {
		s.Points = shifted
		s.Says = []string{"Told from standing still (q < 0.05), in half widths of the tolerance:",
			"A shift inside the tolerance breaks no rule. It is the first sign of a stand that moves."}
	}
	for i, view := range r.People.Series {
		drawn, err := driftChart(chart{ID: chartID("people", fmt.Sprintf("drift-%d", i+1)),
			Title: fmt.Sprintf("%s: %s moved", view.Group, plain(view.Quantity)), Alt: "Chart of individual readings"}, view)
		if err != nil {
			return s, err
		}
		s.More = append(s.More, block{Heading: view.Group + ", " + plain(view.Quantity), Chart: drawn,
			Says: "Every reading in order, in half widths of its tolerance, with the limits that the readings before the shift set."})
	}
	return s, nil
}
