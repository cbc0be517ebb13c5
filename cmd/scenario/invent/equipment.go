package invent

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"plumbline/cmd/scenario/record"
)

// tool is a stand, a target or a gauge.
type tool struct {
	name  string
	since time.Time // in use from this day on; zero for always
	diary diary
}

func tools(prefix string, n int) []*tool {
	made := make([]*tool, n)
	for i := range made {
		made[i] = &tool{name: fmt.Sprintf("%s%d", prefix, i+1)}
	}
	return made
}

// all lists everything that the shop checks.
func (s *shop) all() []*tool {
	return slices.Concat(s.stands, s.boards, s.mirrors, s.gauges)
}

// checkEvery is the usual interval; a check is due three weeks after it.
const checkEvery = 90

// register makes up the shops' equipment checks in time order. It begins a
// few weeks before the first job: a stand in use has been checked before.
func (g *group) register() []record.EquipmentCheck {
	var checks []record.EquipmentCheck
	for _, s := range g.shops {
		for _, t := range s.all() {
			checks = append(checks, g.checksOf(s, t)...)
		}
	}
	slices.SortStableFunc(checks, func(a, b record.EquipmentCheck) int { return a.CheckedAt.Compare(b.CheckedAt) })
	return checks
}

// checksOf gives one tool's checks: those planted for it, or a check each
// quarter that passes.
func (g *group) checksOf(s *shop, t *tool) []record.EquipmentCheck {
	first, plants := t.since, g.planted(s, t)
	if first.IsZero() {
		first = g.from.Add(-days(g.between(4, 50)))
	}
	var checks []record.EquipmentCheck
	for at := first; at.Before(g.until); at = at.Add(days(checkEvery + g.between(-7, 5))) {
		if len(plants) > 0 && at.Add(days(checkEvery)).After(plants[0].CheckedAt) {
			checks = append(checks, plants...)
			at, plants = plants[len(plants)-1].CheckedAt, nil
			continue
		}
		checked := s.workday(at).Add(g.minutes(-20, 25)).Truncate(time.Minute)
		if checked.Before(g.until) {
			checks = append(checks, passed(s, t, checked, checkEvery+21, checkNote(g.dice, t.name)))
		}
	}
	return checks
}

func passed(s *shop, t *tool, at time.Time, dueAfter int, note string) record.EquipmentCheck {
	return record.EquipmentCheck{Shop: s.name, Equipment: t.name, CheckedAt: at, Outcome: "passed",
		DueAt: midnight(at).Add(days(dueAfter)), Note: note}
}

// checkNote is what a check finds worth a word, mostly nothing.
func checkNote(d dice, tool string) string {
	if !d.chance(0.2) {
		return ""
	}
	switch {
	case strings.Contains(tool, "-ST"):
		return pick(d, "re-zeroed", "laser realigned", "feet leveled", "scale label replaced", "crossbar tightened")
	case strings.Contains(tool, "-TB"):
		return pick(d, "cleaned", "small scratch at the edge, outside the pattern", "hanger straightened", "flat within 0.4 mm")
	case strings.Contains(tool, "-CR"):
		return pick(d, "cleaned", "cone true", "tripod screw replaced")
	default:
		return pick(d, "compared with the reference gauge", "battery replaced", "adjusted")
	}
}

// planted gives the checks of the first group that tell a story. Everything
// before them follows the usual interval.
func (g *group) planted(s *shop, t *tool) []record.EquipmentCheck {
	if g.index != 0 {
		return nil
	}
	switch t.name {
	case "K-TB3": // scratched, and used for two more days until the new face came
		return []record.EquipmentCheck{
			{Shop: s.name, Equipment: t.name, CheckedAt: day(2025, time.June, 16).Add(7*time.Hour + 20*time.Minute), Outcome: "failed",
				DueAt: day(2025, time.September, 15), Note: "pattern scratched lower left, new face ordered"},
			passed(s, t, day(2025, time.June, 19).Add(7*time.Hour+10*time.Minute), checkEvery+21, "new face fitted"),
		}
	case "F-TB4": // forgotten for two weeks after it was due
		return []record.EquipmentCheck{
			passed(s, t, day(2025, time.September, 8).Add(7*time.Hour+40*time.Minute), 90, ""),
			passed(s, t, day(2025, time.December, 22).Add(8*time.Hour+5*time.Minute), checkEvery+21, "two weeks late, board was on loan"),
		}
	case newBoard: // used before anybody measured it
		return []record.EquipmentCheck{passed(s, t, t.since.Add(days(9)+9*time.Hour), checkEvery+21, "first check")}
	}
	return driftChecks(s, t)
}

// newBoard is the second board for the busiest maker, bought in November 2025.
const newBoard = "K-TB6"

// buyBoard gives the first group's first shop its new board.
func (g *group) buyBoard() {
	if g.index == 0 && g.shops[0].name == "Kestrel" {
		g.shops[0].boards = append(g.shops[0].boards, &tool{name: newBoard, since: day(2025, time.November, 10)})
	}
}
