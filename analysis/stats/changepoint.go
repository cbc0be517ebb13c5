package stats

import (
	"fmt"
	"math"
)

// Change is the most likely point at which a rate changed.
type Change struct {
	// At is the number of groups before the change.
	At int
	// Before and After pool the two sides.
	Before Proportion
	After  Proportion
	// Statistic is twice the log-likelihood ratio of two rates against one.
	Statistic float64
	// P tells how often chance alone, with no change anywhere, makes a split at least that good.
	P float64
	// Draws is how many random orders, made from Seed, P rests on; where it is 0, P is exact.
	Draws int
	Seed  uint64
	// Defined is false where there is nothing to split: no hits, nothing but hits, or fewer than two groups with units.
	Defined bool
}

const (
	// maxOrders is the largest number of orders that are all gone through for an exact p, maxSteps the largest number of
	// splits tried on the way.
	maxOrders = 20_000
	maxSteps  = 10_000_000
	// enoughExceeding stops the drawing once this many orders were at least as good: the p is then large and known well.
	enoughExceeding = 50
	// sameStatistic is the relative distance within which two statistics are equal but for rounding.
	sameStatistic = 1e-9
)

// ChangePoint finds the most likely change of rate in a sequence of groups, or of single units as groups of one.
//
//	statistic = max over splits of 2 (l(x1, n1) + l(x2, n2) - l(x, n)),  l(x, n) = x log(x/n) + (n-x) log(1 - x/n)
//	p = share of the orders of the units with a statistic at least as large: of all of them where they are 20,000 or
//	    fewer, else (b+1)/(m+1) with b such orders among m drawn; drawing ends early, with p = b/m, once b is 50
//
// Source: Hinkley & Hinkley (1970) Biometrika 57:477-488; permutation after Pettitt (1980) Biometrika 67:79-84; the early end
// after Besag & Clifford (1991) Biometrika 78:301-304.
//
// Input: groups in order of time, groups without units allowed; draws, 1 or more, is the largest number of random orders.
// Of equally good splits the first is taken. An impossible count or no draws are an error.
func ChangePoint(sequence []Proportion, draws int, seed uint64) (Change, error) {
	if err := checkGroups(sequence); err != nil {
		return Change{}, fmt.Errorf("change point: %w", err)
	}
	if draws < 1 {
		return Change{}, fmt.Errorf("change point: %d draws: at least one is needed", draws)
	}
	s := newSplitter(sequence)
	if s.all.Count == 0 || s.all.Count == s.all.N || s.holding < 2 {
		return Change{}, nil
	}
	hits := make([]int64, len(sequence))
	for i, g := range sequence {
		hits[i] = g.Count
	}
	at, statistic := s.best(hits)
	change := Change{At: at, Before: pool(sequence[:at]), After: pool(sequence[at:]), Statistic: statistic, Defined: true}
	least := statistic * (1 - sameStatistic)
	if orders := math.Exp(logChoose(s.all.N, s.all.Count)); orders <= min(maxOrders, maxSteps/float64(len(sequence))) {
		change.P = asProbability(s.exactP(least))
		return change, nil
	}
	change.P, change.Draws = s.drawnP(least, draws, newRandom(seed))
	change.Seed = seed
	return change, nil
}

// splitter evaluates splits of a sequence whose groups keep their sizes while the hits move about.
type splitter struct {
	sizes []int64
	all   Proportion
	// holding is how many groups have units.
	holding int
	// table holds x log x from x = 0 on: the fit of every split is put together from six of them.
	table []float64
	// whole is the fit of one common rate.
	whole float64
}

// maxTable bounds the table of x log x; longer sequences compute it each time.
const maxTable = 1 << 20

func newSplitter(sequence []Proportion) splitter {
	s := splitter{all: pool(sequence)}
	for _, g := range sequence {
		s.sizes = append(s.sizes, g.N)
		if g.N > 0 {
			s.holding++
		}
	}
	s.table = make([]float64, min(s.all.N, maxTable)+1)
	for x := 1; x < len(s.table); x++ {
		s.table[x] = float64(float64(x) * math.Log(float64(x)))
	}
	s.whole = s.fit(s.all.Count, s.all.N)
	return s
}

// xlogx is x log x, 0 for 0.
func (s splitter) xlogx(x int64) float64 {
	if x < int64(len(s.table)) {
		return s.table[x]
	}
	return float64(float64(x) * math.Log(float64(x)))
}

// fit is the log-likelihood of x hits among n units at their own rate.
func (s splitter) fit(x, n int64) float64 { return s.xlogx(x) + s.xlogx(n-x) - s.xlogx(n) }

// best finds the first of the best splits and its statistic.
func (s splitter) best(hits []int64) (at int, statistic float64) {
	var x, n int64
	statistic = -1
	for i, size := range s.sizes[:len(s.sizes)-1] {
		x += hits[i]
		n += size
		if size == 0 || n == s.all.N {
			continue
		}
		if value := 2 * (s.fit(x, n) + s.fit(s.all.Count-x, s.all.N-n) - s.whole); value > statistic*(1+sameStatistic) {
			at, statistic = i+1, value
		}
	}
	return at, math.Max(0, statistic)
}
