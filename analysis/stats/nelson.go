package stats

import "slices"

// Signal names a pattern on a control chart that chance alone seldom makes. It is reported at the period that completes
// it.
//
// Source: Nelson (1984) J. Quality Technology 16:237-239, tests 1, 2, 3, 5 and 6.
type Signal string

// The tests. Sides are strict: a value on the centre is on neither side, one on a limit is not beyond it, and a tie ends
// a trend.
const (
	// BeyondLimits (test 1): a value outside the limits drawn.
	BeyondLimits Signal = "beyond_limits"
	// NineOneSide (test 2): nine values in a row on one side of the centre.
	NineOneSide Signal = "nine_one_side"
	// SixTrending (test 3): six values in a row, each after the first above, or each below, the one before it.
	SixTrending Signal = "six_trending"
	// TwoOfThree (test 5): two of three values in a row more than two sigma off on the same side, the last among them.
	TwoOfThree Signal = "two_of_three"
	// FourOfFive (test 6): four of five values in a row more than one sigma off on the same side, the last among them.
	FourOfFive Signal = "four_of_five"
)

// reading is a value with the centre and sigma that hold for it: sigma differs from period to period as units do.
type reading struct {
	value        float64
	center       float64
	sigma        float64
	lower, upper float64
	isSmall      bool // says nothing in any pattern but a value beyond the limits
}

// plainReading has limits at three sigma. Where sigma is 0, any value off the centre is beyond them, and the patterns have
// no meaning.
func plainReading(value, center, sigma float64) reading {
	return reading{value: value, center: center, sigma: sigma, lower: center - float64(limitSigmas*sigma),
		upper: center + float64(limitSigmas*sigma), isSmall: sigma == 0}
}

// side is 1 where the value lies more than sigmas sigma above the centre, -1 where below, else 0.
func (r reading) side(sigmas float64) int {
	switch distance := float64(sigmas * r.sigma); {
	case r.value > r.center+distance:
		return 1
	case r.value < r.center-distance:
		return -1
	}
	return 0
}

// nelsonSignals lists the tests that the last of the readings completes, in the order of their numbers.
//
// Input: one reading or more, in order of time. Readings left out (no units, not usable) do not interrupt a row.
func nelsonSignals(seen []reading) []Signal {
	var signals []Signal
	if last := seen[len(seen)-1]; last.value < last.lower || last.value > last.upper {
		signals = append(signals, BeyondLimits)
	}
	for _, pattern := range patterns {
		if len(seen) >= pattern.window && pattern.shows(seen[len(seen)-pattern.window:]) {
			signals = append(signals, pattern.signal)
		}
	}
	return signals
}

// patterns are the tests that look at several readings: the signal, and how many readings must be there, none of them
// small.
var patterns = []pattern{
	{NineOneSide, 9, func(recent []reading) bool { return onOneSide(recent, 0) >= 9 }},
	{SixTrending, 6, isTrending},
	{TwoOfThree, 3, func(recent []reading) bool { return onOneSide(recent, 2) >= 2 }},
	{FourOfFive, 5, func(recent []reading) bool { return onOneSide(recent, 1) >= 4 }},
}

type pattern struct {
	signal Signal
	window int
	holds  func(recent []reading) bool
}

func (p pattern) shows(recent []reading) bool {
	return !slices.ContainsFunc(recent, func(r reading) bool { return r.isSmall }) && p.holds(recent)
}

// onOneSide counts the readings more than sigmas sigma off on the side that the last one lies on; 0 where it lies on
// none.
func onOneSide(recent []reading, sigmas float64) int {
	side, count := recent[len(recent)-1].side(sigmas), 0
	for _, r := range recent {
		if side != 0 && r.side(sigmas) == side {
			count++
		}
	}
	return count
}

// isTrending tells whether the readings rise, or fall, at every step. It goes by the values alone.
func isTrending(recent []reading) bool {
	rises, falls := 0, 0
	for i, r := range recent[1:] {
		switch before := recent[i].value; {
		case r.value > before:
			rises++
		case r.value < before:
			falls++
		}
	}
	return rises == len(recent)-1 || falls == len(recent)-1
}
