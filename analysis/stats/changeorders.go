package stats

import "math"

// drawnP draws orders until there are enough of them or enough of them are at least as good as least. It gives p and how
// many were drawn. Most groups never changed, and for them the drawing ends after some hundred orders.
func (s splitter) drawnP(least float64, draws int, source random) (float64, int) {
	hits, exceeding := make([]int64, len(s.sizes)), 0
	for drawn := 1; drawn <= draws; drawn++ {
		s.shuffle(hits, source)
		if _, statistic := s.best(hits); statistic >= least {
			exceeding++
		}
		if exceeding == enoughExceeding {
			return float64(exceeding) / float64(drawn), drawn
		}
	}
	return drawnP(exceeding, draws), draws
}

// shuffle spreads the hits over the groups as a random order of the units would: group after group takes its units without
// return from those left.
func (s splitter) shuffle(hits []int64, source random) {
	left := s.all
	for i, size := range s.sizes {
		hits[i] = source.hypergeometric(hypergeometric{hits: left.Count, n: size, total: left.N})
		left.Count -= hits[i]
		left.N -= size
	}
}

// exactP goes through all ways to spread the hits over the groups and adds up the share of the orders at least as good as
// least.
//
//	orders that make hits x_1, x_2, … of sizes n_1, n_2, … = C(n_1, x_1) C(n_2, x_2) …,  of C(n, x) in all
func (s splitter) exactP(least float64) float64 {
	hits, total := make([]int64, len(s.sizes)), 0.0
	orders := logChoose(s.all.N, s.all.Count)
	var spread func(group int, left Proportion, ways float64)
	spread = func(group int, left Proportion, ways float64) {
		if group == len(s.sizes) {
			if _, statistic := s.best(hits); statistic >= least {
				total += math.Exp(ways - orders)
			}
			return
		}
		size := s.sizes[group]
		rest := left.N - size
		for x := max(0, left.Count-rest); x <= min(size, left.Count); x++ {
			hits[group] = x
			spread(group+1, Proportion{Count: left.Count - x, N: rest}, ways+logChoose(size, x))
		}
	}
	spread(0, s.all, 0)
	return total
}

// logChoose is the logarithm of the number of ways to choose k of n.
func logChoose(n, k int64) float64 {
	return logFactorial(n) - logFactorial(k) - logFactorial(n-k)
}
