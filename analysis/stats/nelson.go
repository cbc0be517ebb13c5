package stats

// Signal names a pattern on a control chart that chance alone seldom makes. It is reported at the period that completes
// it.
//
// Source: Nelson (1984) J. Quality Technology 16:237-239, tests 1, 2, 3, 5 and 6.
type Signal string

// The tests. Sides are strict: a value on the centre is on neither side, one on a limit is not beyond it, and a tie ends
// a trend.
const (
	// BeyondLimits (test 1): a value more than three sigma from the centre.
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
	value  float64
	center float64
	sigma  float64
}

// side is 1 where the value lies more than sigmas sigma above the centre, -1 where below, else 0. The rounding of the
// product is the same as that of the limits drawn.
func (r reading) side(sigmas float64) int {
	switch distance := float64(sigmas * r.sigma); {
	case r.value > r.center+distance:
		return 1
	case r.value < r.center-distance:
		return -1
	}
	return 0
}

// nelsonSignals lists the tests that the last of the readings completes, in the order of their numbers. Where sigma is 0, any
// value off the centre is beyond the limits and the other tests have no meaning.
//
// Input: one reading or more, in order of time. Readings left out (no units, not usable) do not interrupt a row.
func nelsonSignals(seen []reading) []Signal {
	var signals []Signal
	last := seen[len(seen)-1]
	if last.side(limitSigmas) != 0 {
		signals = append(signals, BeyondLimits)
	}
	if last.sigma == 0 {
		return signals
	}
	if isEnough(seen, 9, 9, 0) {
		signals = append(signals, NineOneSide)
	}
	if isTrending(seen, 6) {
		signals = append(signals, SixTrending)
	}
	if isEnough(seen, 2, 3, 2) {
		signals = append(signals, TwoOfThree)
	}
	if isEnough(seen, 4, 5, 1) {
		signals = append(signals, FourOfFive)
	}
	return signals
}

// isEnough tells whether, of the last window readings, at least needed lie more than sigmas sigma off on the side that
// the last one lies on. Fewer readings than a window make no pattern.
func isEnough(seen []reading, needed, window int, sigmas float64) bool {
	if len(seen) < window {
		return false
	}
	recent := seen[len(seen)-window:]
	side, count := recent[window-1].side(sigmas), 0
	for _, r := range recent {
		if r.side(sigmas) == side {
			count++
		}
	}
	return side != 0 && count >= needed
}

// isTrending tells whether the last window readings rise, or fall, at every step. It goes by the values alone: limits and
// centre play no part in this test.
func isTrending(seen []reading, window int) bool {
	if len(seen) < window {
		return false
	}
	recent := seen[len(seen)-window:]
	rises, falls := 0, 0
	for i := 1; i < window; i++ {
		switch {
		case recent[i].value > recent[i-1].value:
			rises++
		case recent[i].value < recent[i-1].value:
			falls++
		}
	}
	return rises == window-1 || falls == window-1
}
