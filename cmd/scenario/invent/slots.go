package invent

import (
	"slices"
	"time"
)

// slot is one job to come: when and where a vehicle drives in.
type slot struct {
	at   time.Time
	shop int
}

// slots spreads n jobs over the shops and the working days, in time order.
func (g *group) slots(n int) []slot {
	total := 0
	for _, s := range g.shops {
		total += s.weight
	}
	var all []slot
	given, weight := 0, 0
	for i, s := range g.shops {
		weight += s.weight
		upTo := n * weight / total
		all = append(all, g.slotsOf(i, upTo-given)...)
		given = upTo
	}
	slices.SortStableFunc(all, func(a, b slot) int { return a.at.Compare(b.at) })
	return all
}

// slotsOf draws a shop's arrivals: busier in the cold months, half a day on
// Saturdays, mornings before afternoons.
func (g *group) slotsOf(index, n int) []slot {
	s := g.shops[index]
	var mornings []time.Time
	var upTo []float64
	total := 0.0
	for at := midnight(g.from); at.Before(g.until); at = at.Add(days(1)) {
		if opens, _, open := s.hours(at); open {
			total += busyness(at)
			mornings, upTo = append(mornings, opens), append(upTo, total)
		}
	}
	made := make([]slot, n)
	for i := range made {
		at, _ := slices.BinarySearch(upTo, (float64(i)+g.Float64())/float64(n)*total)
		made[i] = slot{g.arrival(mornings[at]), index}
	}
	return made
}

func (g *group) arrival(opens time.Time) time.Time {
	minutes := g.between(0, 420)
	if opens.Weekday() == time.Saturday {
		minutes = g.between(0, 150)
	} else if g.chance(0.45) {
		minutes = g.between(0, 120)
	}
	return opens.Add(time.Duration(minutes) * time.Minute)
}

func busyness(at time.Time) float64 {
	share := 1.0
	switch at.Month() {
	case time.December, time.January, time.February:
		share = 1.15
	case time.July, time.August:
		share = 0.9
	}
	if at.Weekday() == time.Saturday {
		share *= 0.35
	}
	return share
}
