package stats

import "math"

// hypergeometric is the distribution of the number of hits among n units drawn without return from total units that hold
// hits hits, 0 <= n, hits <= total.
//
//	P(k) = C(hits, k) C(total-hits, n-k) / C(total, n)
//
// It is the law of a two-by-two table with its margins held, and of a sample from a lot.
type hypergeometric struct {
	hits, n, total int64
}

// low and high are the smallest and largest number of hits that the draw can hold.
func (h hypergeometric) low() int64  { return max(0, h.n+h.hits-h.total) }
func (h hypergeometric) high() int64 { return min(h.n, h.hits) }

// mode is the most probable number of hits: (n+1)(hits+1)/(total+2), rounded down.
func (h hypergeometric) mode() int64 {
	middle := int64(float64(h.n+1) * (float64(h.hits+1) / float64(h.total+2)))
	return min(max(middle, h.low()), h.high())
}

// logMass is the logarithm of the probability of k hits.
func (h hypergeometric) logMass(k int64) float64 {
	return logHypergeometricMass(k, h.hits, h.n, h.total)
}

// ratioDown is the probability of k-1 hits over that of k.
//
//	k (total - hits - n + k) / ((hits - k + 1) (n - k + 1))
func (h hypergeometric) ratioDown(k int64) float64 {
	misses := h.total - h.hits
	return float64(k) / float64(h.hits-k+1) * (float64(misses-h.n+k) / float64(h.n-k+1))
}

// ratioUp is the probability of k+1 hits over that of k.
func (h hypergeometric) ratioUp(k int64) float64 { return 1 / h.ratioDown(k+1) }

// logBelow is the logarithm of the probability of k hits or fewer, logAbove of k or more. Each sums from k outward and
// so is quick and exact where k lies on that side of the mode.
func (h hypergeometric) logBelow(k int64) float64 {
	if k < h.low() {
		return math.Inf(-1)
	}
	k = min(k, h.high())
	return h.logMass(k) + math.Log(sumTail(k-h.low(), func(i int64) float64 { return h.ratioDown(k - i) }))
}

func (h hypergeometric) logAbove(k int64) float64 {
	if k > h.high() {
		return math.Inf(-1)
	}
	k = max(k, h.low())
	return h.logMass(k) + math.Log(sumTail(h.high()-k, func(i int64) float64 { return h.ratioUp(k + i) }))
}

// sumTail adds up a tail of a distribution whose first term counts as 1: ratio(i) is term i+1 over term i, for i from 0
// to steps-1. It stops where what is left cannot change the sum: the ratios of the distributions here fall, so that
// the terms still to come are below those of a geometric series.
func sumTail(steps int64, ratio func(i int64) float64) float64 {
	sum, term := 1.0, 1.0
	for i := int64(0); i < steps; i++ {
		r := ratio(i)
		term = float64(term * r)
		sum += term
		if r < 1 && float64(term*r) < float64(sum*(1-r))*1e-17 {
			break
		}
	}
	return sum
}

// logSum is log(exp(a) + exp(b)) for logarithms of probabilities, minus infinity included. Tails are added as logarithms
// because each alone may be too small for a float64 to hold.
func logSum(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	if math.IsInf(a, -1) {
		return a
	}
	return a + math.Log1p(math.Exp(b-a))
}
