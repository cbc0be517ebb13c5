package stats

import "math"

// root finds where f, positive at low and not positive at high, crosses 0, as closely as a float64 tells. Where f does not
// have these signs at the ends, the end where it is nearer to 0 is given.
//
// False position with Dowell & Jarratt's (1971) halving of the end that stays, BIT 11:168-174; every third step halves
// the range, so that the worst case is no slower than three times halving.
//
// The functions here are smooth but can be flat over most of the range (a tail probability is), which plain false position
// crosses in countless small steps; hence both remedies.
func root(f func(float64) float64, low, high float64) float64 {
	atLow, atHigh := f(low), f(high)
	if !(atLow > 0 && atHigh <= 0) {
		if math.Abs(atLow) < math.Abs(atHigh) {
			return low
		}
		return high
	}
	// Three hundred steps are a hundred halvings, more than a float64 between 0 and 1e6 has room for.
	for step := range 300 {
		middle := low + (high-low)/2
		if middle == low || middle == high || atHigh == 0 {
			break
		}
		x := middle
		if guess := high - float64(atHigh*((high-low)/(atHigh-atLow))); step%3 != 2 && guess > low && guess < high {
			x = guess
		}
		if at := f(x); at > 0 {
			low, atLow, atHigh = x, at, atHigh/2
		} else {
			high, atHigh, atLow = x, at, atLow/2
		}
	}
	return high
}
