package stats

import "math"

// binomial is the distribution of the number of hits in n trials, each a hit with probability p and none with q = 1-p.
type binomial struct {
	n    int64
	p, q float64
}

// logMass is the logarithm of the probability of x hits.
func (b binomial) logMass(x int64) float64 { return logBinomialMass(x, b.n, b.p, b.q) }

// below is the probability of x hits or fewer. It sums the shorter tail, from x outward.
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

// above is the probability of x hits or more, x over the mean.
func (b binomial) above(x int64) float64 {
	if b.logMass(x) == math.Inf(-1) {
		return 0
	}
	odds := b.p / b.q
	tail := sumTail(b.n-x, func(i int64) float64 { return float64(b.n-x-i) / float64(x+i+1) * odds })
	return math.Min(1, float64(math.Exp(b.logMass(x))*tail))
}

// quantile is the smallest number of hits r with a probability F(r) of r or fewer of at least a, 0 < a < 1. It comes
// with F(r) and the probability of r itself, which is above 0.
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
