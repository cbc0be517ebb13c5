package quality

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"plumbline/analysis/history"
)

// foldAll folds the calls and changes of each outcome, so that a bad stand is named once, and not again as its shop, its bay
// and its only technician. Glass and gaps stand as they are.
func (s *standing) foldAll(things []Standout) ([]Standout, error) {
	var kept []Standout
	byOutcome := map[Outcome][]Standout{}
	for _, thing := range things {
		if thing.Kind == StandoutCall || thing.Kind == StandoutChange {
			byOutcome[Outcome(thing.Outcome)] = append(byOutcome[Outcome(thing.Outcome)], thing)
			continue
		}
		kept = append(kept, thing)
	}
	for _, outcome := range Outcomes {
		folded, err := s.fold(outcome, onePerGroup(byOutcome[outcome]))
		if err != nil {
			return nil, err
		}
		kept = append(kept, folded...)
	}
	return kept, nil
}

func (t Standout) key() groupKey { return groupKey{t.Grouping, t.Group} }

// onePerGroup keeps the change of a group that is both called and changed.
func onePerGroup(things []Standout) []Standout {
	changed := map[groupKey]bool{}
	for _, thing := range things {
		changed[thing.key()] = changed[thing.key()] || thing.Kind == StandoutChange
	}
	return slices.DeleteFunc(things, func(t Standout) bool { return t.Kind == StandoutCall && changed[t.key()] })
}

// fold lists the group that is told most clearly, takes its units out of every comparison, folds into it what is then no
// longer higher like with like, and goes on with what is left. A change whose group is not higher over the twelve months
// (it rose from a low rate, say) is listed as it is.
func (s *standing) fold(outcome Outcome, things []Standout) ([]Standout, error) {
	compared := s.compared[outcome]
	var listed, left []Standout
	for _, thing := range things {
		if alikeP(compared, thing) < 0.05 {
			left = append(left, thing)
		} else {
			listed = append(listed, thing)
		}
	}
	shared, err := s.sharedHits(outcome, left)
	if err != nil {
		return nil, err
	}
	var out []groupKey
	for len(left) > 0 {
		at := clearest(left, compared, shared)
		chosen := left[at]
		left = slices.Delete(left, at, at+1)
		out = append(out, chosen.key())
		if compared, err = s.compareLeft(outcome, left, out); err != nil {
			return nil, err
		}
		var names []string
		left = slices.DeleteFunc(left, func(t Standout) bool {
			folds := !(alikeP(compared, t) < 0.05)
			if folds {
				names = append(names, strings.ReplaceAll(t.Grouping, "_", " ")+" "+t.Group)
			}
			return folds
		})
		if names != nil {
			chosen.Detail = "without it no longer higher: " + strings.Join(names, ", ")
		}
		listed = append(listed, chosen)
	}
	return listed, nil
}

// alikeP is the p like with like of a thing's group where it has the higher rate and enough to be judged by; else not a
// number.
func alikeP(compared map[string]Comparison, t Standout) float64 {
	for _, g := range compared[t.Grouping].Groups {
		if g.Group == t.Group && g.N >= minGroup && g.Covered >= leastCovered && g.LikeP != nil && g.Difference > 0 {
			return *g.LikeP
		}
	}
	return math.NaN()
}

// clearest is the place of the thing whose group has the smallest p; of those that share more than half of both's hits with
// it, the first in the order of groupings.
func clearest(left []Standout, compared map[string]Comparison, shared map[[2]string]int64) int {
	order := func(t Standout) int { return slices.Index(standoutGroupings, t.Grouping) }
	best := 0
	for i, t := range left {
		if cmp.Or(cmp.Compare(alikeP(compared, t), alikeP(compared, left[best])), cmp.Compare(order(t), order(left[best]))) < 0 {
			best = i
		}
	}
	one := left[best].key().text()
	first := best
	for i, t := range left {
		other := t.key().text()
		both := 2 * shared[[2]string{one, other}]
		if both > shared[[2]string{one, one}] && both > shared[[2]string{other, other}] && order(t) < order(left[first]) {
			first = i
		}
	}
	return first
}

type sharedRow struct {
	One, Other string
	Shared     int64
}

// sharedHits counts the hits that the groups have in common over the twelve months.
func (s *standing) sharedHits(outcome Outcome, things []Standout) (map[[2]string]int64, error) {
	shared := map[[2]string]int64{}
	if len(things) < 2 {
		return shared, nil
	}
	keys := make([]groupKey, len(things))
	for i, thing := range things {
		keys[i] = thing.key()
	}
	rows, err := history.Select[sharedRow](s.ctx, s.h, "measures/shared_hits", history.Params{"outcome": string(outcome),
		"groups": joinedKeys(keys), "from": s.year.From, "to": s.year.To})
	for _, row := range rows {
		shared[[2]string{row.One, row.Other}] = row.Shared
	}
	return shared, err
}

// compareLeft compares again, without the units of the groups taken out, what things are left to be judged by.
func (s *standing) compareLeft(outcome Outcome, left []Standout, out []groupKey) (map[string]Comparison, error) {
	compared := map[string]Comparison{}
	for _, thing := range left {
		if _, has := compared[thing.Grouping]; has {
			continue
		}
		c, err := compareWithout(s.ctx, s.h, thing.Grouping, outcome, s.year, out)
		if err != nil {
			return nil, err
		}
		compared[thing.Grouping] = c
	}
	return compared, nil
}
