package stats

import (
	"fmt"
	"math"
)

// Sequence is units in order of time, in clusters that belong together, such as the tasks of one job.
type Sequence struct {
	Clusters []Proportion
	// Cuts are the places at which it may be split, ascending: the number of clusters before the cut.
	Cuts []int
	// Least is how many units each part has at least, 1 or more.
	Least int64
}

// Change is the most likely point at which a rate changed.
type Change struct {
	// At is the number of clusters before the change.
	At int
	// Before and After pool the two sides.
	Before Proportion
	After  Proportion
	// Statistic is twice the log-likelihood ratio of two rates against one.
	Statistic float64
	// P tells how often chance alone, with no change anywhere, makes a split at least that good.
	P float64
	// Draws is how many random orders, made from Seed, P rests on.
	Draws int
	Seed  uint64
	// Defined is false where there is nothing to split: no hits, nothing but hits, or no cut that leaves both parts large
	// enough.
	Defined bool
}

const (
	// enoughExceeding stops the drawing once this many orders were at least as good: the p is then large and known well.
	enoughExceeding = 50
	// sameStatistic is the relative distance within which two statistics are equal but for rounding.
	sameStatistic = 1e-9
)

// ChangePoint finds the most likely change of rate in a sequence.
//
//	statistic = max over cuts of 2 (l(x1, n1) + l(x2, n2) - l(x, n)),  l(x, n) = x log(x/n) + (n-x) log(1 - x/n)
//	p = (b+1)/(m+1) with b orders of the clusters, among m drawn, with a statistic at least as large; drawing ends early,
//	    with p = b/m, once b is 50
//
// Clusters move about whole, so that units that share one fate count for no more than they tell.
//
// Source: Hinkley & Hinkley (1970) Biometrika 57:477-488; permutation after Pettitt (1980) Biometrika 67:79-84; the early end
// after Besag & Clifford (1991) Biometrika 78:301-304; p after Davison & Hinkley (1997), eq. 4.11.
//
// Input: draws, 1 or more, is the largest number of random orders. Of equally good cuts the first is taken. An impossible
// count, a cut outside the sequence, or no draws are an error.
func ChangePoint(sequence Sequence, draws int, seed uint64) (Change, error) {
	if err := sequence.check(); err != nil {
		return Change{}, fmt.Errorf("change point: %w", err)
	}
	if draws < 1 {
		return Change{}, fmt.Errorf("change point: %d draws: at least one is needed", draws)
	}
	s := newSplitter(sequence)
	at, statistic := s.best(sequence.Clusters)
	if at == 0 || s.all.Count == 0 || s.all.Count == s.all.N {
		return Change{}, nil
	}
	change := Change{At: at, Before: pool(sequence.Clusters[:at]), After: pool(sequence.Clusters[at:]), Statistic: statistic,
		Seed: seed, Defined: true}
	change.P, change.Draws = s.drawnP(statistic*(1-sameStatistic), draws, newRandom(seed))
	return change, nil
}

func (s Sequence) check() error {
	if err := checkGroups(s.Clusters); err != nil {
		return err
	}
	if s.Least < 1 {
		return fmt.Errorf("parts of %d units: a part has at least one", s.Least)
	}
	before := 0
	for _, cut := range s.Cuts {
		if cut <= before || cut >= len(s.Clusters) {
			return fmt.Errorf("cut after %d of %d clusters: cuts ascend and leave both parts something", cut, len(s.Clusters))
		}
		before = cut
	}
	return nil
}

// splitter evaluates the cuts of a sequence whose clusters move about.
type splitter struct {
	Sequence
	all Proportion
	// table holds x log x from x = 0 on: the fit of every cut is put together from six of them.
	table []float64
	// whole is the fit of one common rate.
	whole float64
}

// maxTable bounds the table of x log x; longer sequences compute it each time.
const maxTable = 1 << 20

func newSplitter(sequence Sequence) splitter {
	s := splitter{Sequence: sequence, all: pool(sequence.Clusters)}
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

// best finds the first of the best cuts of the clusters in the order given, 0 where there is none, and its statistic.
func (s splitter) best(clusters []Proportion) (at int, statistic float64) {
	var before Proportion
	statistic = -1
	next := 0
	for _, cut := range s.Cuts {
		for ; next < cut; next++ {
			before.Count += clusters[next].Count
			before.N += clusters[next].N
		}
		if before.N < s.Least || s.all.N-before.N < s.Least {
			continue
		}
		value := 2 * (s.fit(before.Count, before.N) + s.fit(s.all.Count-before.Count, s.all.N-before.N) - s.whole)
		if value > statistic*(1+sameStatistic) {
			at, statistic = cut, value
		}
	}
	return at, math.Max(0, statistic)
}

// drawnP draws orders until there are enough of them or enough of them are at least as good as least. It gives p and how
// many were drawn. Most groups never changed, and for them the drawing ends after some hundred orders.
func (s splitter) drawnP(least float64, draws int, source random) (float64, int) {
	clusters, exceeding := append([]Proportion(nil), s.Clusters...), 0
	for drawn := 1; drawn <= draws; drawn++ {
		source.shuffle(clusters)
		if _, statistic := s.best(clusters); statistic >= least {
			exceeding++
		}
		if exceeding == enoughExceeding {
			return float64(exceeding) / float64(drawn), drawn
		}
	}
	return drawnP(exceeding, draws), draws
}
