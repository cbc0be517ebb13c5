package review

import (
	"fmt"
	"strings"

	"plumbline/analysis/quality"
)

// comparisonTitle says what a comparison shows, and no more.
func comparisonTitle(c quality.Comparison) string {
	var more, less []string
	for _, group := range called(c) {
		if group.Call == quality.Higher {
			more = append(more, group.Group)
		} else {
			less = append(less, group.Group)
		}
	}
	if len(more)+len(less) == 0 {
		return "No " + groupingName(c.By) + " is called different from the others"
	}
	var said []string
	if len(more) > 0 {
		said = append(said, "more often than the others: "+fewNames(more))
	}
	if len(less) > 0 {
		said = append(said, "less often: "+fewNames(less))
	}
	return sentence(strings.Join(said, "; "))
}

// fewNames keeps a title short.
func fewNames(names []string) string {
	if len(names) > 3 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:3], ", "), len(names)-3)
	}
	return strings.Join(names, ", ")
}

// called are the groups that the one test calls different.
func called(c quality.Comparison) []quality.Group {
	var different []quality.Group
	for _, group := range c.Groups {
		if group.IsDifferent() {
			different = append(different, group)
		}
	}
	return different
}

// comparisonSays tells which groups are called different, and what the rule does. Calls are one a group.
func comparisonSays(c quality.Comparison) (said, calls []string) {
	tested := int64(0)
	for _, group := range c.Groups {
		if group.Q != nil {
			tested++
		}
	}
	if tested == 0 {
		return []string{"No group has the 10 units that it takes to be compared."}, nil
	}
	first := fmt.Sprintf("%s of at least 10 units %s compared with all others together.",
		sentence(several(tested, "group", "groups")), map[bool]string{true: "was", false: "were"}[tested == 1])
	different := called(c)
	if len(different) == 0 {
		return []string{first + " None is called different like with like (q < 0.05). " + byChance}, nil
	}
	for _, group := range different {
		calls = append(calls, fmt.Sprintf("%s: %s like with like, %s where %.1f of %s were expected; %s of all (95\u00a0%% interval %s; q %s)",
			group.Group, group.Call, count(group.LikeCount), group.Expected, count(group.LikeN), percent(group.Rate),
			between(&group.WilsonLow, &group.WilsonHigh), probability(group.LikeQ)))
	}
	return []string{fmt.Sprintf("%s All together: %s (%s of %s). Called different like with like (q < 0.05):", first, percent(c.Pooled.Rate()),
		count(c.Pooled.Count), count(c.Pooled.N)), byChance +
		" A difference says where to look, not who is at fault: the work, the vehicles and the equipment differ too."}, calls
}

// byChance says what the rule does.
const byChance = "The rule allows for how many were compared: over many reviews, at most one in twenty of the groups that it calls is " +
	"expected to differ by chance alone."
