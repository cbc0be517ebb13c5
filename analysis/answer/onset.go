package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// mostUnclear is how many groups a page shows whose change is not told from chance.
const mostUnclear = 12

// A placedOnset is a change with what its group is.
type placedOnset struct {
	by string
	quality.Onset
}

// Onsets says since when a group's rate is another, and whether that has ended, over all groupings that the answer shows.
func Onsets(a About, tables []quality.OnsetTable, views []quality.OnsetView, tooMany []string, most int) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "onset", Title: "When did it start, and has it ended"}
	var told, unclear []placedOnset
	groups := map[string]bool{}
	for _, table := range tables {
		for _, onset := range table.Onsets {
			groups[table.By+" "+onset.Group] = true
			if onset.IsChange() {
				told = append(told, placedOnset{table.By, onset})
			} else {
				unclear = append(unclear, placedOnset{table.By, onset})
			}
		}
	}
	for _, by := range tooMany {
		e.Notes = append(e.Notes, fmt.Sprintf("By %s there are more than %d groups, which is too many to look through here: plumbline onset --by %s --shop SHOP "+
			"does it shop by shop.", GroupingName(by), most, by))
	}
	if len(groups) == 0 {
		e.Says = []string{"No group has the 10 tasks and the ups and downs that it takes to look for a change."}
		return e
	}
	command := a.allCommand("plumbline onset --by equipment")
	listed := append(told[:len(told):len(told)], unclear[:min(len(unclear), mostUnclear)]...)
	e.Table = onsetTable(listed)
	if len(unclear) > mostUnclear {
		e.Table.Rest = "Groups whose change is not told from chance are not all shown. All of them: " + command
	}
	e.Says, e.Points = onsetSays(int64(len(groups)), told)
	e.Notes = append([]string{commandNote(command)}, e.Notes...)
	for i, view := range views {
		e.Parts = append(e.Parts, onsetView(tables, i, view))
	}
	return e
}

// OnsetSheet lists all changes looked for, told or not, for a workbook.
func OnsetSheet(a About, tables []quality.OnsetTable) exhibit.Exhibit {
	var all []placedOnset
	for _, table := range tables {
		for _, onset := range table.Onsets {
			all = append(all, placedOnset{table.By, onset})
		}
	}
	return exhibit.Exhibit{Name: "onsets", Title: "When did a group's rate change?", Table: onsetTable(all),
		Sheet: exhibit.Sheet{Name: "When it started", Keep: 2, About: "The change points of each group's rate not first pass"},
		Says: []string{"The split of a group's tasks that fits best, over all records up to " + a.monthWords() + ". p is how often chance alone makes a split at least " +
			"that good among the same jobs; a change is told where q < 0.05 over all groups looked at. What changed in those days has to be asked in the shop."}}
}

func onsetSays(groups int64, told []placedOnset) (said, points []string) {
	looked := fmt.Sprintf("%s looked through for the moment at which the share of tasks that are not first pass changed.",
		say.Sentence(say.Several(groups, "group was", "groups were")))
	if len(told) == 0 {
		return []string{looked + " No change is told from chance (q < 0.05 over all of them)."}, nil
	}
	for _, onset := range told {
		points = append(points, OnsetSays(onset.Onset))
	}
	return []string{looked + " Told from chance (q < 0.05 over all of them):",
		"A change point says when to look back, not what happened. One cause shows up in every group that shares it: a stand, its bay and the people who use it."}, points
}

// OnsetSays is one told change in words, counts first: whether it holds or has ended is part of it.
func OnsetSays(o quality.Onset) string {
	said := fmt.Sprintf("%s: from %s to %s between %s and %s", o.Group, say.OutOf(o.BeforeCount, o.BeforeN), say.OutOf(o.AfterCount, o.AfterN),
		say.Day(o.LastBefore), say.Day(o.FirstAfter))
	if o.Until != nil {
		return said + fmt.Sprintf("; it ended about %s (q %s)", say.Day(*o.Until), say.Probability(&o.Q))
	}
	return said + fmt.Sprintf("; it holds (q %s)", say.Probability(&o.Q))
}

func onsetTable(listed []placedOnset) *exhibit.Table {
	before := share{"before_count", "before_n", "before_rate", "before_low", "before_high", "Count before", "n before", "Rate before", "Before", exhibit.Figure}
	after := share{"after_count", "after_n", "after_rate", "after_low", "after_high", "Count after", "n after", "Rate after", "After", exhibit.Figure}
	return &exhibit.Table{Caption: "Change points, those told from chance first", Columns: joined(
		beside(exhibit.Column{Name: "by", Heading: "By", Says: GroupingName}), exhibit.Column{Name: "group"},
		exhibit.Column{Name: "change", Type: exhibit.Count, Rank: exhibit.Detail}, exhibit.Column{Name: "last_before", Heading: "Last before", Type: exhibit.Day, Rank: exhibit.Detail},
		exhibit.Column{Name: "first_after", Heading: "First after", Type: exhibit.Day}, exhibit.Column{Name: "until", Heading: "Until about", Type: exhibit.Day},
		before.columns(), after.columns(), difference(after, before, "difference", "diff_low", "diff_high"),
		exhibit.Column{Name: "p", Type: exhibit.Probability, Rank: exhibit.Depth}, exhibit.Column{Name: "q", Type: exhibit.Probability},
		beside(exhibit.Column{Name: "call"})),
		Rows: exhibit.Each(listed, func(o placedOnset) []any {
			call := exhibit.Cell{}
			if o.IsChange() {
				call = exhibit.Cell{Value: "higher", Mark: exhibit.Higher}
				if o.AfterRate < o.BeforeRate {
					call = exhibit.Cell{Value: "lower", Mark: exhibit.Lower}
				}
			}
			return []any{o.by, o.Group, o.Change, o.LastBefore, o.FirstAfter, o.Until, o.BeforeCount, o.BeforeN, o.BeforeRate, o.BeforeLow, o.BeforeHigh, o.AfterCount,
				o.AfterN, o.AfterRate, o.AfterLow, o.AfterHigh, o.Difference, o.DiffLow, o.DiffHigh, o.P, o.Q, call}
		})}
}

// onsetView draws a group's weekly rates and their moving average between its limits.
func onsetView(tables []quality.OnsetTable, i int, view quality.OnsetView) exhibit.Exhibit {
	rates := share{count: "count", n: "n", rate: "rate", countHeading: "Not first pass", nHeading: "Tasks"}.columns()
	t := &exhibit.Table{Caption: view.Group + ", week by week", Ordered: true, Latest: true, Columns: joined(exhibit.Column{Name: "week"}, rates,
		exhibit.Column{Name: "average", Heading: "Moving average", Type: exhibit.Share},
		interval(exhibit.Share, exhibit.Detail, "Its limits", "low", "Limit low", "high", "Limit high"),
		exhibit.Column{Name: "all", Type: exhibit.Share, Only: exhibit.Drawings}, exhibit.Column{Name: "above", Type: exhibit.Share, Only: exhibit.Drawings},
		exhibit.Column{Name: "below", Type: exhibit.Share, Only: exhibit.Drawings}, exhibit.Column{Name: "call", Heading: "The average is"}),
		Rows: exhibit.Each(view.Points, func(p quality.OnsetPoint) []any {
			row := []any{p.Week, p.Count, p.N, p.Rate, p.Average, p.Low, p.High, view.Expected, nil, nil, nil}
			switch {
			case p.Beyond && p.Average > p.High:
				row[8], row[10] = p.Average, exhibit.Cell{Value: "above its limit", Mark: exhibit.Higher}
			case p.Beyond:
				row[9], row[10] = p.Average, exhibit.Cell{Value: "below its limit", Mark: exhibit.Lower}
			}
			return row
		})}
	return exhibit.Exhibit{Name: fmt.Sprintf("onset-%d", i+1), Title: groupingHeading(view.By) + " " + view.Group, Table: t,
		Says: []string{fmt.Sprintf("Share of tasks that are not first pass, week by week; the moving average is watched against the %s of all groups.",
			say.Percent(view.Expected))},
		Drawing: &exhibit.Drawing{Title: onsetFinding(tables, view), Alt: "Weekly rate with its moving average and limits",
			Across: exhibit.Axis{Column: "week", Scale: exhibit.Names}, Up: exhibit.Axis{Type: exhibit.Share},
			Label: func(k int) string {
				p := view.Points[k]
				return fmt.Sprintf("%s: %s, average %s", p.Week, say.OutOf(p.Count, p.N), say.Percent(p.Average))
			},
			Series: []exhibit.Series{{Name: "moving average", Column: "average", Look: exhibit.Average}, {Name: "all groups", Column: "all", Look: exhibit.Centre},
				{Name: "limits of the average", Column: "low", Look: exhibit.CurveLimit}, {Name: "limits of the average", Column: "high", Look: exhibit.CurveLimit},
				{Name: "week", Column: "rate", Look: exhibit.Dots}, {Name: "average above its limit", Column: "above", Look: exhibit.Beyond},
				{Name: "average below its limit", Column: "below", Look: exhibit.Under}}}}
}

// onsetFinding says what is true of the group now: its last stretch against its first.
func onsetFinding(tables []quality.OnsetTable, view quality.OnsetView) string {
	var last *quality.Onset
	for _, table := range tables {
		for i, onset := range table.Onsets {
			if table.By == view.By && onset.Group == view.Group && onset.IsChange() {
				last = &table.Onsets[i]
			}
		}
	}
	if last == nil {
		return view.Group + ", week by week"
	}
	way := direction(last.AfterRate < last.First.Rate())
	if last.Change > 1 && last.AfterRate < last.BeforeRate && last.AfterRate >= last.First.Rate() {
		return fmt.Sprintf("%s is lower again since about %s, though higher than at first", view.Group, say.Day(last.FirstAfter))
	}
	return fmt.Sprintf("%s is %s than at first since about %s", view.Group, way, say.Day(last.FirstAfter))
}
