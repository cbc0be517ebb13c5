package quality

import (
	"context"
	"flag"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// How often is a word said that is not true? Histories in which nothing depends on anything go through the real queries, and
// every table is asked whether it calls anything. The short run holds the tool together; figures come from
//
//	go test ./analysis/quality -run Simulat -v -timeout 0 -histories 200
//
// and one setting alone from -run SimulatedHistories/0.35.
var histories = flag.Int("histories", 1, "how many invented histories the simulations draw, for each setting")

// mostFalse is what the lower end of the 95 % interval of the share of histories with any false call may reach.
// Source: issue "Words never stronger than their numbers".
const (
	mostFalseTable = 0.06
	mostFalsePage  = 0.10
)

// shares counts, by name, in how many histories something was said.
type shares struct {
	said map[string]int64
	n    int64
}

func (s *shares) count(name string, said bool) {
	if s.said == nil {
		s.said = map[string]int64{}
	}
	s.said[name] += map[bool]int64{true: 1}[said]
}

// write prints the shares with Clopper and Pearson's intervals, and gives the lower ends.
func (s *shares) write(t *testing.T, title string) map[string]float64 {
	t.Helper()
	lows, lines := map[string]float64{}, []string{title}
	for _, name := range slices.Sorted(maps.Keys(s.said)) {
		interval, err := stats.ClopperPearson(stats.Proportion{Count: s.said[name], N: s.n}, stats.Level95)
		if err != nil {
			t.Fatal(err)
		}
		lows[name] = interval.Low
		lines = append(lines, fmt.Sprintf("%-44s %4d of %4d   %5.1f %% (%.1f to %.1f)", name, s.said[name], s.n,
			100*float64(s.said[name])/float64(s.n), 100*interval.Low, 100*interval.High))
	}
	t.Log(strings.Join(lines, "\n"))
	return lows
}

func TestSimulatedHistoriesWithoutAnyEffect(t *testing.T) {
	correlations := []float64{0, 0.1, 0.35}
	if *histories == 1 {
		correlations = correlations[2:]
	}
	for _, alike := range correlations {
		t.Run(fmt.Sprint(alike), func(t *testing.T) {
			var s shares
			for i := range *histories {
				h := invented{seed: uint64(1000 + i), aDay: 3, days: 500, alike: alike}.history(t)
				s.n++
				s.askAll(t, h)
				h.Close()
			}
			for name, low := range s.write(t, fmt.Sprintf("nothing planted, correlation of a job's tasks %g", alike)) {
				most := mostFalseTable
				if strings.HasPrefix(name, "first page") {
					most = mostFalsePage
				}
				if low > most {
					t.Errorf("%s calls falsely in more than %g", name, most)
				}
			}
		})
	}
}

// askAll asks every table of a history whether it says anything.
func (s *shares) askAll(t *testing.T, h *history.History) {
	t.Helper()
	ctx := context.Background()
	check := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, outcome := range Outcomes {
		for _, by := range Groupings {
			if by == "system" && outcome != NotFirstPass {
				continue
			}
			c, err := Compare(ctx, h, by, outcome, Filter{})
			check(err)
			s.count(fmt.Sprintf("compare %s by %s", outcome, by), slices.ContainsFunc(c.Groups, Group.IsDifferent))
		}
	}
	rows, err := Glass(ctx, h, nil, Filter{})
	check(err)
	s.count("glass", slices.ContainsFunc(rows, func(r GlassRow) bool {
		return !slices.Contains([]Verdict{TooLittle, NotComparable, NotShown}, r.Verdict)
	}))
	tables, err := Onsets(ctx, h, Filter{}, OnsetGroupings...)
	check(err)
	s.count("onset, all groupings", slices.ContainsFunc(tables, func(table OnsetTable) bool {
		return slices.ContainsFunc(table.Onsets, Onset.IsChange)
	}))
	for _, by := range OnsetGroupings {
		alone, err := Onsets(ctx, h, Filter{}, by)
		check(err)
		s.count("onset by "+by, slices.ContainsFunc(alone[0].Onsets, Onset.IsChange))
	}
	for _, outcome := range TrendOutcomes {
		points, err := Trend(ctx, h, TrendQuery{Outcome: outcome, By: Month})
		check(err)
		last := points[len(points)-1]
		s.count("trend of "+string(outcome)+", last month", len(last.Signals) > 0)
	}
	things, err := Standouts(ctx, h, "2025-04")
	check(err)
	s.count("first page: anything stands out", len(things) > 0)
}

// One stand of nine has 300 tasks before a day and 150 after it, independent of each other; the rate is 8 % everywhere and
// rises there. In a third run it comes down again after the 150, for another 150.
func TestSimulatedRises(t *testing.T) {
	var s shares
	var found []int
	for i := range *histories {
		s.n++
		for name, plan := range map[string][2]float64{"8 to 24 %": {0.24, 0.24}, "8 to 16 %": {0.16, 0.16}, "8 to 24 % and back": {0.24, 0.08}} {
			h := planted(uint64(5000+i), plan[0], plan[1]).history(t)
			all, err := Onsets(context.Background(), h, Filter{}, OnsetGroupings...)
			if err != nil {
				t.Fatal(err)
			}
			within, err := Onsets(context.Background(), h, Filter{}, "equipment")
			if err != nil {
				t.Fatal(err)
			}
			at, _ := riseOf(all[0])
			s.count(name+": rise found over all groupings", at >= 0)
			at, end := riseOf(within[0])
			s.count(name+": rise found within its grouping", at >= 0)
			if plan[1] < plan[0] {
				s.count(name+": its end found too", end >= 0)
			}
			if at >= 0 && name == "8 to 24 %" {
				found = append(found, at-plantedDay)
			}
			h.Close()
		}
	}
	s.write(t, "a stand's rate rises")
	slices.Sort(found)
	if len(found) > 0 {
		t.Logf("8 to 24 %%: days off, quartiles %d, %d, %d", found[len(found)/4], found[len(found)/2], found[3*len(found)/4])
	}
	for name, least := range map[string]float64{"8 to 24 %: rise found over all groupings": 0.6,
		"8 to 24 %: rise found within its grouping": 0.8, "8 to 16 %: rise found within its grouping": 0.2} {
		high, err := stats.ClopperPearson(stats.Proportion{Count: s.said[name], N: s.n}, stats.Level95)
		if err != nil || high.High < least {
			t.Errorf("%s in %d of %d, %v; it should be in %g", name, s.said[name], s.n, err, least)
		}
	}
}

const plantedDay = 300

// planted gives stand alder/s1 a task a day: 300 before the planted day, 150 at one rate from then on, and 150 at another.
func planted(seed uint64, then, later float64) invented {
	day := -1
	return invented{seed: seed, aDay: 3, days: 600, plant: func(v *visit) {
		v.tasks, v.miss = 1, 0.08
		if v.shop == "alder" && v.stand == "s1" {
			v.stand = "s4" // the stand's own tasks are those below
		}
		if v.day == day {
			return
		}
		day = v.day
		v.shop, v.stand = "alder", "s1"
		switch {
		case v.day >= plantedDay+150 && later == then:
			v.stand = "s5" // only 150 tasks after
		case v.day >= plantedDay+150:
			v.miss = later
		case v.day >= plantedDay:
			v.miss = then
		}
	}}
}

// riseOf is the day, from 2024-01-01, on which the rise of the planted stand was found, and that of its end; -1 where not.
func riseOf(table OnsetTable) (rise, end int) {
	rise, end = -1, -1
	for _, o := range table.Onsets {
		if o.Group != "alder/s1" || !o.IsChange() {
			continue
		}
		day := int(o.FirstAfter.Sub(dayOf(0)).Hours() / 24)
		if o.AfterRate > o.BeforeRate {
			rise = day
		} else if rise >= 0 {
			end = day
		}
	}
	return rise, end
}
