package stats

import "math/rand/v2"

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

// shuffle puts the clusters into a random order.
//
// Source: Durstenfeld (1964) Communications of the ACM 7:420, algorithm 235.
func (r random) shuffle(clusters []Proportion) {
	for i := len(clusters) - 1; i > 0; i-- {
		j := int(r.uniform() * float64(i+1))
		clusters[i], clusters[j] = clusters[j], clusters[i]
	}
}

// drawnP is the p-value of a random test with exceeding draws at least as extreme as what was seen: what was seen counts
// as one draw more, which keeps p above 0 and the test no more liberal than it says.
//
// Source: Davison & Hinkley (1997) Bootstrap Methods and their Application, eq. 4.11.
func drawnP(exceeding, draws int) float64 { return float64(exceeding+1) / float64(draws+1) }
