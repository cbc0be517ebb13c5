package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// Actions is what was done about quality, and whether it helped; called tells whether a subject had been called or stood
// out shortly before.
func Actions(a About, taken []quality.Action, candidates []quality.ActionCandidate, called func(quality.Action) bool) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "actions", Title: "What we did, and whether it helped", Sheet: exhibit.Sheet{Name: "Actions", Keep: 2,
		About: "What was done about quality, with its subject's tasks before and after and the others meanwhile"}}
	e.Says = []string{fmt.Sprintf("%s on record in %s.", say.Sentence(say.NoneOr(int64(len(taken)), "action is", "actions are")), a.twelve())}
	if len(taken) > 0 {
		e.Says = append(e.Says, "Counted are the tasks of what the action was done to that were not first pass, up to 180 days before and after it; the others are the same "+
			"shop's other ones, or the other shops. It is an association: other things change in those days too.")
		for _, action := range taken {
			e.Points = append(e.Points, ActionSays(action, called(action)))
		}
	} else {
		e.Says = append(e.Says, "Write down what you do, so that the next review can say whether it helped: plumbline actions add.")
	}
	e.Table = ActionTable(taken)
	e.Notes = []string{commandNote(a.yearCommand("plumbline actions"))}
	if len(candidates) > 0 {
		e.Parts = []exhibit.Exhibit{candidateTable(candidates)}
	}
	return e
}

// ActionName says what was done to what.
func ActionName(a quality.Action) string {
	name := a.Shop
	if a.Subject != nil {
		name = GroupingName(a.SubjectKind) + " " + *a.Subject + " (" + a.Shop + ")"
	}
	return fmt.Sprintf("%s, %s: %s", say.Day(a.TakenAt), name, a.What)
}

// ActionSays is an action with its verdict, one template each.
func ActionSays(a quality.Action, calledBefore bool) string {
	said := fmt.Sprintf("%s. Before %s, after %s; the others %s and %s. %s", ActionName(a), say.OutOf(a.BeforeCount, a.BeforeN), say.OutOf(a.AfterCount, a.AfterN),
		say.OutOf(a.OthersBeforeCount, a.OthersBeforeN), say.OutOf(a.OthersAfterCount, a.OthersAfterN), actionVerdict(a))
	if calledBefore {
		said += " It follows a time in which this had been called: the worst of many falls back by itself."
	}
	return said
}

func actionVerdict(a quality.Action) string {
	way := "fell"
	if a.Alike > 0 {
		way = "rose"
	}
	alike := fmt.Sprintf("q %s", say.Probability(a.LikeQ))
	if a.LikeOddsRatio != nil && a.LikeLow != nil && a.LikeHigh != nil {
		alike = fmt.Sprintf("odds ratio after against before in like work %s, 95%s%% interval %s–%s, q %s", say.Number(*a.LikeOddsRatio, 2), say.NBSP,
			say.Number(*a.LikeLow, 2), say.Number(*a.LikeHigh, 2), say.Probability(a.LikeQ))
	}
	less := ""
	if a.LessLow != nil && a.LessHigh != nil {
		less = fmt.Sprintf("; less the others' change, 95%s%% interval %s to %s points", say.NBSP, say.Signed(*a.LessLow), say.Signed(*a.LessHigh))
	}
	switch a.Verdict {
	case quality.TooEarly:
		return "Too early to say."
	case quality.Alone:
		return fmt.Sprintf("The rate %s (%s), and the others have too few tasks to be held against: no verdict.", way, alike)
	case quality.Better:
		return fmt.Sprintf("Better: the rate fell, and by more than the others' (%s%s).", alike, less)
	case quality.Worse:
		return fmt.Sprintf("Worse: the rate rose, and by more than the others' (%s%s).", alike, less)
	case quality.WithTheOthers:
		return fmt.Sprintf("The rate %s, but not clearly more than the others' did (%s%s).", way, alike, less)
	}
	said := fmt.Sprintf("A change is not shown (%s).", alike)
	if d := a.Detectable; d != nil && d.HasBelow && d.Below >= 0.0005 {
		return said + fmt.Sprintf(" Only a rate of at most %s after would have been likely to show (80%s%% power).", say.Percent(d.Below), say.NBSP)
	}
	return said + " No fall, however large, would have been likely to show with so few."
}

// ActionTable is actions with the columns of the command.
func ActionTable(taken []quality.Action) *exhibit.Table {
	before := share{"before_count", "before_n", "before_rate", "before_low", "before_high", "Count before", "n before", "Rate before", "Before", exhibit.Figure}
	after := share{"after_count", "after_n", "after_rate", "after_low", "after_high", "Count after", "n after", "Rate after", "After", exhibit.Figure}
	swap := func(c []exhibit.Column) []exhibit.Column { c[0], c[1] = c[1], c[0]; return c }
	deep := func(name, heading string, t exhibit.Type) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Type: t, Rank: exhibit.Depth}
	}
	return &exhibit.Table{Caption: "Actions, with tasks not first pass before and after", Columns: joined(exhibit.Column{Name: "shop"},
		exhibit.Column{Name: "subject_kind", Heading: "Kind", Says: GroupingName, Rank: exhibit.Detail}, exhibit.Column{Name: "subject"},
		exhibit.Column{Name: "taken_at", Heading: "When", Type: exhibit.Day}, exhibit.Column{Name: "what", Heading: "What was done", Type: exhibit.Prose},
		exhibit.Column{Name: "by", Rank: exhibit.Depth}, exhibit.Column{Name: "outcome", Says: outcomeName, Rank: exhibit.Depth}, swap(before.columns()), swap(after.columns()),
		difference(after, before, "difference", "diff_low", "diff_high"), exhibit.Column{Name: "like_odds_ratio", Heading: "Odds ratio, like with like", Type: exhibit.Ratio, Rank: exhibit.Figure},
		interval(exhibit.Ratio, exhibit.Detail, "Its 95 % interval", "like_low", "OR low", "like_high", "OR high"), deep("like_p", "p", exhibit.Probability),
		exhibit.Column{Name: "like_q", Heading: "q", Type: exhibit.Probability, Rank: exhibit.Figure}, deep("others_before_n", "Others' n before", exhibit.Count),
		deep("others_before_count", "Others' count before", exhibit.Count), deep("others_after_n", "Others' n after", exhibit.Count),
		deep("others_after_count", "Others' count after", exhibit.Count), exhibit.Column{Name: "others_difference", Heading: "Others' change, points", Type: exhibit.Change, Rank: exhibit.Detail,
			Formula: "{others_after_count}/{others_after_n}-{others_before_count}/{others_before_n}"},
		deep("others_low", "Others' low", exhibit.Change), deep("others_high", "Others' high", exhibit.Change),
		interval(exhibit.Change, exhibit.Detail, "Less the others", "less_low", "Less the others, low", "less_high", "Less the others, high"),
		exhibit.Column{Name: "verdict", Type: exhibit.Word}),
		Rows: exhibit.Each(taken, func(t quality.Action) []any {
			verdict := exhibit.Cell{Value: string(t.Verdict)}
			switch t.Verdict {
			case quality.Better:
				verdict.Mark = exhibit.Lower
			case quality.Worse:
				verdict.Mark = exhibit.Higher
			case quality.TooEarly:
				verdict.Mark = exhibit.Open
			}
			return []any{t.Shop, t.SubjectKind, t.Subject, t.TakenAt, t.What, t.By, string(t.Outcome), t.BeforeN, t.BeforeCount, t.BeforeRate, t.BeforeLow, t.BeforeHigh, t.AfterN,
				t.AfterCount, t.AfterRate, t.AfterLow, t.AfterHigh, t.Difference, t.DiffLow, t.DiffHigh, t.LikeOddsRatio, t.LikeLow, t.LikeHigh, t.LikeP, t.LikeQ, t.OthersBeforeN,
				t.OthersBeforeCount, t.OthersAfterN, t.OthersAfterCount, t.OthersDifference, t.OthersLow, t.OthersHigh, t.LessLow, t.LessHigh, verdict}
		})}
}

// candidateTable offers changes that the records show and nobody has named.
func candidateTable(candidates []quality.ActionCandidate) exhibit.Exhibit {
	return exhibit.Exhibit{Name: "action-candidates", Title: "Changes that the records show, and nobody has named", Folds: true,
		Says: []string{"If one of these was meant to help, name it, and the next review says whether it did: plumbline actions add --shop SHOP --on KIND=SUBJECT --at WHEN --what TEXT --by WHO"},
		Table: &exhibit.Table{Caption: "First seen in the records", All: "plumbline actions", Columns: joined(exhibit.Column{Name: "shop"},
			exhibit.Column{Name: "subject_kind", Heading: "What", Says: GroupingName}, exhibit.Column{Name: "subject", Heading: "New"}, exhibit.Column{Name: "before", Heading: "Before it, mostly"},
			exhibit.Column{Name: "first_seen", Heading: "First seen", Type: exhibit.Day}, counts(exhibit.Figure, [2]string{"tasks", "Tasks since"})),
			Rows: exhibit.Each(candidates, func(c quality.ActionCandidate) []any {
				return []any{c.Shop, c.SubjectKind, c.Subject, c.Before, c.FirstSeen, c.Tasks}
			})}}
}
