package stats

import "math"

// directTerms is the number of terms up to which the sums below are added term by term. What is left of longer ones is
// taken from asymptotic series, whose error from the 65th term on is below the last digit.
const directTerms = 64

// logRising is the sum of log(start + r theta) over r from 0 to size-1: the logarithm of a rising factorial. It is exact for
// theta = 0 too, and as near to it as one likes, which differences of log-gamma values are not.
func logRising(start, theta float64, size int64) float64 {
	sum, r := 0.0, int64(0)
	for ; r < min(size, directTerms); r++ {
		sum += math.Log(start + float64(float64(r)*theta))
	}
	if r == size {
		return sum
	}
	// With a = start/theta at the first term left and k terms to go:
	// k log(start) + (a + k - 1/2) log(1 + k/a) - k + error(a + k) - error(a), the errors those of Stirling's formula.
	first := start + float64(float64(r)*theta)
	a, k := first/theta, float64(size-r)
	if a > 1e30 {
		return sum + float64(k*math.Log(first))
	}
	sum += float64(k*math.Log(first)) + float64((a+k-0.5)*math.Log1p(k/a)) - k
	return sum + stirlingSeries(a+k, float64((a+k)*(a+k))) - stirlingSeries(a, float64(a*a))
}

// meanSlope is the derivative of logRising with respect to start: the sum of 1 / (start + r theta).
func meanSlope(start, theta float64, size int64) float64 {
	sum := 0.0
	for r := int64(0); r < min(size, directTerms); r++ {
		sum += 1 / (start + float64(float64(r)*theta))
	}
	if size > directTerms {
		first := start + float64(directTerms*theta)
		sum += reciprocalSum(first/theta, float64(size-directTerms)) / theta
	}
	return sum
}

// scatterSlope is the derivative of logRising with respect to theta: the sum of r / (start + r theta).
func scatterSlope(start, theta float64, size int64) float64 {
	sum := 0.0
	for r := int64(1); r < min(size, directTerms); r++ {
		sum += float64(r) / (start + float64(float64(r)*theta))
	}
	if size <= directTerms {
		return sum
	}
	k, a := float64(size-directTerms), start/theta+directTerms
	if float64(size) < 1e-4*a {
		return sum + nearlyFlatSum(start, theta, size)
	}
	// r/(start + r theta) = (1 - start/(start + r theta)) / theta
	return sum + (k-float64((a-directTerms)*reciprocalSum(a, k)))/theta
}

// nearlyFlatSum is the part of scatterSlope from directTerms on where start is far larger than any r theta, so that the
// difference in scatterSlope would cancel: the first terms of its expansion in theta/start, from sums of powers of r.
func nearlyFlatSum(start, theta float64, size int64) float64 {
	powers := func(n float64) (first, second, third float64) {
		first = n * (n - 1) / 2
		return first, first * (2*n - 1) / 3, float64(first * first)
	}
	a1, a2, a3 := powers(float64(size))
	b1, b2, b3 := powers(directTerms)
	t := theta / start
	return ((a1 - b1) - float64(t*(a2-b2)) + float64(t*t*(a3-b3))) / start
}

// reciprocalSum is the sum of 1/(a + r) over r from 0 to k-1, a >= 64: a difference of two digamma values.
//
//	log(1 + k/a) + [-1/(2x) - 1/(12x²) + 1/(120x⁴) - 1/(252x⁶)] from x = a to a + k
//
// Source: Abramowitz & Stegun (1964) 6.3.18.
func reciprocalSum(a, k float64) float64 {
	tail := func(x float64) float64 {
		square := float64(x * x)
		return -(0.5 + (1.0/12-(1.0/120-(1.0/252)/square)/square)/x) / x
	}
	return math.Log1p(k/a) + tail(a+k) - tail(a)
}
