package answer

import (
	"fmt"
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// CompareName is the name of the exhibit of a comparison.
func CompareName(c quality.Comparison) string {
	return strings.ReplaceAll(c.By+"-"+string(c.Outcome), "_", "-")
}

func compareTitle(c quality.Comparison) string {
	return fmt.Sprintf("%s by %s", say.Sentence(outcomeNames[c.Outcome]), GroupingName(c.By))
}

// A GroupLinker leads from a group to its page; empty where it has none.
type GroupLinker func(by, group string) string

// Compare is groups side by side.
func Compare(a About, c quality.Comparison, link GroupLinker) (exhibit.Exhibit, error) {
	e := exhibit.Exhibit{Name: CompareName(c), Title: compareTitle(c)}
	if len(c.Groups) == 0 {
		e.Says = []string{"No " + outcomeUnits[c.Outcome][0] + " on record names " + article(GroupingName(c.By)) + "."}
		return e, nil
	}
	e.Says, e.Points = compareSays(c)
	if c.LeftOut > 0 {
		e.Says = append(e.Says, fmt.Sprintf("%s left out, because %s record does not name %s.",
			say.Sentence(say.Several(c.LeftOut, outcomeUnits[c.Outcome][0]+" is", unitsOf(c.Outcome)+" are")), say.One(c.LeftOut, "its", "their"),
			article(GroupingName(c.By))))
	}
	command := a.allCommand(fmt.Sprintf("plumbline compare --by %s --outcome %s", c.By, c.Outcome))
	e.Table = CompareTable(c, link)
	e.Table.All = command
	e.Notes = []string{commandNote(command)}
	observed, err := observedAgainst(c, e.Table)
	if err != nil || len(c.Groups) < 2 {
		return e, err
	}
	e.Drawing = observed
	e.Parts = []exhibit.Exhibit{{Name: e.Name + "-ranked", Drawing: rankedRates(c),
		Says: []string{"The rates as they are, whatever the work: the longer its line, the less is known of a group."}}}
	return e, nil
}

// compareSays tells which groups are called, and what the rule behind the call does.
func compareSays(c quality.Comparison) (said, calls []string) {
	tested, apart := int64(0), int64(0)
	for _, group := range c.Groups {
		if group.LikeQ != nil {
			tested++
		}
		if group.Call == quality.NoneAlike {
			apart++
		}
	}
	if apart > 0 {
		defer func() {
			said = append(said, fmt.Sprintf("%s no like to be compared with: less than half of %s units lie beside others of the same kind of work and vehicle.",
				say.Sentence(say.Several(apart, "group has", "groups have")), say.One(apart, "its", "their")))
		}()
	}
	all := fmt.Sprintf("All together: %s.", say.OutOf(c.Pooled.Count, c.Pooled.N))
	if c.Pooled.Count == 0 || c.Pooled.Count == c.Pooled.N {
		return []string{all + " Where all groups are alike there is nothing to tell apart."}, nil
	}
	if tested == 0 {
		return []string{all + " No group has the 10 units, and others like them beside it, that it takes to be compared."}, nil
	}
	first := fmt.Sprintf("%s %s compared with all others together, like with like: within the same %s.", say.Sentence(say.Several(tested, "group of at least 10 units",
		"groups of at least 10 units")), say.One(tested, "was", "were"), likeWords(c))
	called := calledGroups(c)
	if len(called) == 0 {
		return []string{all + " " + first + " None is called higher or lower: what is seen is within what chance gives."}, nil
	}
	for _, group := range called {
		calls = append(calls, CallSays(group))
	}
	return []string{all + " " + first + " Called:",
		"The call allows for the number of groups looked at: over many such tables in which no group truly differs, one in twenty holds any call. It says where " +
			"to look, not who is at fault; what the records do not hold can differ too."}, calls
}

// likeWords name what is held equal.
func likeWords(c quality.Comparison) string {
	first := "reason, make and model"
	if c.Outcome == quality.NotFirstPass {
		first = "system, make and model"
	}
	switch c.By {
	case "make", "model":
		return strings.TrimSuffix(first, ", make and model")
	case "system":
		return "make and model"
	}
	return first
}

// CallSays puts one call into words, counts first.
func CallSays(g quality.Group) string {
	said := fmt.Sprintf("%s: %s, %s of %s where %s would be expected of the others in like work", g.Group, g.Call, say.Count(g.LikeCount),
		say.Count(g.LikeN), say.Number(g.Expected, 1))
	if g.LikeOddsRatio != nil && g.LikeLow != nil && g.LikeHigh != nil {
		said += fmt.Sprintf(" (odds ratio %s, 95%s%% interval %s–%s; q %s)", say.Number(*g.LikeOddsRatio, 2), say.NBSP, say.Number(*g.LikeLow, 2),
			say.Number(*g.LikeHigh, 2), say.Probability(g.LikeQ))
	} else {
		said += fmt.Sprintf(" (q %s)", say.Probability(g.LikeQ))
	}
	return said
}

// calledGroups are those that the comparison calls.
func calledGroups(c quality.Comparison) []quality.Group {
	var called []quality.Group
	for _, group := range c.Groups {
		if group.Call == quality.Higher || group.Call == quality.Lower {
			called = append(called, group)
		}
	}
	return called
}

// compareFinding says what a comparison shows, and no more.
func compareFinding(c quality.Comparison) string {
	var more, less []string
	for _, group := range calledGroups(c) {
		if group.Call == quality.Higher {
			more = append(more, group.Group)
		} else {
			less = append(less, group.Group)
		}
	}
	var said []string
	if len(more) > 0 {
		said = append(said, "higher than the others in like work: "+say.Few(more, 3))
	}
	if len(less) > 0 {
		said = append(said, "lower: "+say.Few(less, 3))
	}
	if len(said) == 0 {
		return "No " + GroupingName(c.By) + " is called higher or lower than the others"
	}
	return say.Sentence(strings.Join(said, "; "))
}
