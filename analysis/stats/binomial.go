package stats

import "math"

// binomial is the distribution of the number of hits in n trials, each a hit with probability p and none with q = 1-p.
type binomial struct {
	n    int64
	p, q float64
}

// logMass is the logarithm of the probability of x hits.
func (b binomial) logMass(x int64) float64 { return logBinomialMass(x, b.n, b.p, b.q) }

// below is the probability of x hits or fewer.
//
//	F(x) = sum of C(n, k) p^k q^(n-k) over k from 0 to x
//
// It sums the tail on x's side of the mean, from x outward: a few standard deviations of terms, some ten thousand for ten
// million trials. Each term is the one before times (k/(n-k+1)) (q/p).
func (b binomial) below(x int64) float64 {
	switch {
	case x < 0:
		return 0
	case x >= b.n:
		return 1
	case float64(x) >= float64(float64(b.n)*b.p):
		return math.Max(0, 1-b.above(x+1))
	case b.logMass(x) == math.Inf(-1):
		return 0
	}
	odds := b.q / b.p
	tail := sumTail(x, func(i int64) float64 { return float64(x-i) / float64(b.n-x+i+1) * odds })
	return math.Min(1, float64(math.Exp(b.logMass(x))*tail))
}

// above is the probability of x hits or more. It is exact at any x and quick over the mean.
func (b binomial) above(x int64) float64 {
	if b.logMass(x) == math.Inf(-1) {
		return 0
	}
	odds := b.p / b.q
	tail := sumTail(b.n-x, func(i int64) float64 { return float64(b.n-x-i) / float64(x+i+1) * odds })
	return math.Min(1, float64(math.Exp(b.logMass(x))*tail))
}

// quantile is the smallest number of hits r with F(r) >= a, 0 < a < 1. It comes with F(r) and the probability of r itself,
// which is above 0. The search starts from the normal approximation, which is off by a few counts at most, and walks.
func (b binomial) quantile(a float64) (r int64, upTo, mass float64) {
	deviation := math.Sqrt(float64(float64(b.n)*b.p) * b.q)
	guess := float64(float64(b.n)*b.p) + float64(normalQuantile(a)*deviation)
	r = int64(cut(math.Floor(guess), 0, float64(b.n)))
	upTo, mass = b.below(r), math.Exp(b.logMass(r))
	for r > 0 && upTo-mass >= a {
		upTo -= mass
		r--
		mass = math.Exp(b.logMass(r))
	}
	for upTo < a && r < b.n {
		r++
		mass = math.Exp(b.logMass(r))
		upTo += mass
	}
	return r, upTo, mass
}
