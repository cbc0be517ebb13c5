package stats

import "math"

// The probabilities of single counts are computed from their distance to the expected count, not from differences of
// log-gamma values: for ten million units those differences keep only seven digits.
//
// Source: Loader (2000) Fast and Accurate Computation of Binomial Probabilities, section 2: the saddle-point form.

// logBinomialMass is the logarithm of the probability of x hits in n trials, each a hit with probability p and none
// with q = 1-p. Both are given because near 1 a probability is known better from its complement.
//
//	exp(d(n) - d(x) - d(n-x) - D(x, np) - D(n-x, nq)) sqrt(n / (2 pi x (n-x)))
//
// Minus infinity stands for probability 0.
func logBinomialMass(x, n int64, p, q float64) float64 {
	switch {
	case x < 0 || x > n || (p == 0 && x > 0) || (q == 0 && x < n):
		return math.Inf(-1)
	case x == 0:
		return float64(n) * logOf(q, p)
	case x == n:
		return float64(n) * logOf(p, q)
	}
	fx, fn, rest := float64(x), float64(n), float64(n-x)
	exponent := stirlingError(n) - stirlingError(x) - stirlingError(n-x) -
		deviance(fx, fn*p) - deviance(rest, fn*q)
	return exponent - 0.5*(math.Log(2*math.Pi)+math.Log(fx)+math.Log(rest/fn))
}

// logOf is log(p), taken from the complement q = 1-p where that is the smaller and so the more exact of the two. It is 0
// where p is 1.
func logOf(p, q float64) float64 {
	if q < p {
		return math.Log1p(-q)
	}
	return math.Log(p)
}

// logHypergeometricMass is the logarithm of the probability of k hits among n units drawn without return from total
// units that hold hits hits. It is a quotient of three binomial probabilities with the same p, here n/total.
func logHypergeometricMass(k, hits, n, total int64) float64 {
	p, q := float64(n)/float64(total), float64(total-n)/float64(total)
	return logBinomialMass(k, hits, p, q) + logBinomialMass(n-k, total-hits, p, q) - logBinomialMass(n, total, p, q)
}

// deviance is x log(x/m) + m - x, the distance of a count x from its expectation m, without cancellation where they are
// close: Loader (2000), procedure bd0.
func deviance(x, m float64) float64 {
	if math.Abs(x-m) >= 0.1*(x+m) {
		return float64(x*math.Log(x/m)) + m - x
	}
	v := (x - m) / (x + m)
	sum, term := float64((x-m)*v), 2*float64(x*v)
	for j := 3.0; ; j += 2 {
		term *= float64(v * v)
		next := sum + term/j
		if next == sum {
			return sum
		}
		sum = next
	}
}

// smallStirlingErrors are the errors for 0 to 15, for which the series is too coarse. Computed from log n! to 40
// digits.
var smallStirlingErrors = [16]float64{
	0,
	0.08106146679532726,
	0.0413406959554093,
	0.027677925684998338,
	0.020790672103765093,
	0.016644691189821193,
	0.013876128823070748,
	0.011896709945891770,
	0.010411265261972096,
	0.009255462182712733,
	0.008330563433362871,
	0.007573675487951841,
	0.006942840107209530,
	0.006408994188004207,
	0.005951370112758848,
	0.005554733551962801,
}

// stirlingError is log n! minus Stirling's formula for it.
//
//	log n! - (n + 1/2) log n + n - log(2 pi)/2 = 1/(12n) - 1/(360n³) + 1/(1260n⁵) - 1/(1680n⁷) + 1/(1188n⁹) - …
//
// Source: Abramowitz & Stegun (1964) 6.1.41. Never called with 0, for which the formula has no value.
func stirlingError(n int64) float64 {
	if n < int64(len(smallStirlingErrors)) {
		return smallStirlingErrors[n]
	}
	x := float64(n)
	return stirlingSeries(x, float64(x*x))
}

// stirlingSeries sums the series at x >= 10, by Horner's rule; square is x².
func stirlingSeries(x, square float64) float64 {
	return (1.0/12 - (1.0/360-(1.0/1260-(1.0/1680-(1.0/1188)/square)/square)/square)/square) / x
}
