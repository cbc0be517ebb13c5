package stats

import "fmt"

// maxUnits is the largest count that a float64 holds exactly (2^53). Counts are turned into float64 throughout.
const maxUnits = int64(1) << 53

// Proportion is Count units with the property among N units looked at, 0 <= Count <= N: calibrations that did not pass at
// once among all, jobs that came back among those matured.
type Proportion struct {
	Count int64
	N     int64
}

// Rate is the share of units with the property, from 0 to 1. Where N is 0 there is no rate and Rate gives 0, so ask for
// N first.
func (p Proportion) Rate() float64 {
	if p.N == 0 {
		return 0
	}
	return float64(p.Count) / float64(p.N)
}

// rest is the number of units without the property.
func (p Proportion) rest() int64 { return p.N - p.Count }

// check refuses counts that no history can hold.
func (p Proportion) check() error {
	switch {
	case p.N < 0 || p.N > maxUnits:
		return fmt.Errorf("%d units: a number of units lies between 0 and 2^53", p.N)
	case p.Count < 0 || p.Count > p.N:
		return fmt.Errorf("%d of %d units: a count lies between 0 and the number of units", p.Count, p.N)
	}
	return nil
}

// checkSeen refuses what check refuses and a proportion of nothing.
func (p Proportion) checkSeen() error {
	if p.N == 0 {
		return fmt.Errorf("0 of 0 units: there is no rate")
	}
	return p.check()
}

// checkGroups refuses the first group that check refuses, and says which it is, counted from 1.
func checkGroups(groups []Proportion) error {
	for i, g := range groups {
		if err := g.check(); err != nil {
			return fmt.Errorf("group %d: %w", i+1, err)
		}
	}
	return nil
}

// pool adds the groups up.
func pool(groups []Proportion) Proportion {
	var sum Proportion
	for _, g := range groups {
		sum.Count += g.Count
		sum.N += g.N
	}
	return sum
}
