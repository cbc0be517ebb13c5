package stats

import (
	"fmt"
	"math"
	"sort"
)

// eventDay is a day with at least one event: how many units of each group were still followed and how many had the event.
type eventDay struct {
	day    float64
	atRisk []int64
	events []int64
}

// eventDays sums the units of the groups up by day and keeps the days with events, earliest first. Units whose follow-up
// ends on a day are still at risk on it: a unit censored on a day is known to have had no event up to and including it.
//
// Days are compared exactly. They come from differences of time stamps, so that equal waits are equal numbers.
func eventDays(groups ...[]Survival) []eventDay {
	type member struct {
		Survival
		group int
	}
	var members []member
	left := make([]int64, len(groups))
	for g, units := range groups {
		for _, u := range units {
			members = append(members, member{Survival: u, group: g})
		}
		left[g] = int64(len(units))
	}
	sort.Slice(members, func(i, j int) bool { return members[i].Days < members[j].Days })
	var days []eventDay
	for first := 0; first < len(members); {
		// Nobody whose last day is yet to come has left; everybody else has.
		today := eventDay{day: members[first].Days, atRisk: append([]int64(nil), left...), events: make([]int64, len(groups))}
		next := first
		for ; next < len(members) && members[next].Days == today.day; next++ {
			left[members[next].group]--
			if members[next].Event {
				today.events[members[next].group]++
			}
		}
		if sumOf(today.events) > 0 {
			days = append(days, today)
		}
		first = next
	}
	return days
}

// checkSurvival refuses times that no follow-up can have.
func checkSurvival(units []Survival) error {
	for i, u := range units {
		if !(u.Days >= 0) || math.IsInf(u.Days, 1) {
			return fmt.Errorf("unit %d: followed for %v days: a follow-up is 0 days or more", i+1, u.Days)
		}
	}
	return nil
}
