package stats

import (
	"math"
	"math/rand/v2"
)

// DefaultDraws is the number of random draws behind a p-value that is not computed exactly: its error is then at most
// 0.005 (one standard error at p = 0.5), and 0.0022 at p = 0.05.
const DefaultDraws = 9999

// random draws from a seed. The generator is fixed and the numbers are made of its bits here, so that a seed gives the
// same draws on every machine and with every version of the language.
type random struct {
	source *rand.PCG
}

func newRandom(seed uint64) random { return random{source: rand.NewPCG(seed, 0)} }

// uniform draws a number from 0 up to but not including 1.
func (r random) uniform() float64 { return float64(r.source.Uint64()>>11) / (1 << 53) }

// hypergeometric draws a number of hits by inversion, from the mode outward: the work is a few standard deviations of steps
// however many units there are. Rounding can leave a last crumb of probability that no count takes; it goes to the mode.
func (r random) hypergeometric(law hypergeometric) int64 {
	u, low, high := r.uniform(), law.low(), law.high()
	if law.n == 1 {
		if float64(u*float64(law.total)) < float64(law.hits) {
			return 1
		}
		return 0
	}
	if low == high {
		return low
	}
	mode := law.mode()
	down, up := mode, mode
	mass := math.Exp(law.logMass(mode))
	u -= mass
	massDown, massUp := mass, mass
	for u >= 0 && (down > low || up < high) {
		if up < high {
			massUp = float64(massUp * law.ratioUp(up))
			up++
			if u -= massUp; u < 0 {
				return up
			}
		}
		if down > low {
			massDown = float64(massDown * law.ratioDown(down))
			down--
			if u -= massDown; u < 0 {
				return down
			}
		}
	}
	return mode
}

// drawnP is the p-value of a random test with exceeding draws at least as extreme as what was seen: what was seen counts
// as one draw more, which keeps p above 0 and the test no more liberal than it says.
//
// Source: Davison & Hinkley (1997) Bootstrap Methods and their Application, eq. 4.11.
func drawnP(exceeding, draws int) float64 { return float64(exceeding+1) / float64(draws+1) }
