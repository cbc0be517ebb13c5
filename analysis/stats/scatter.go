package stats

import (
	"math"
	"sort"
)

// sizeCount is how many groups have a count of that size.
type sizeCount struct {
	size   int64
	groups float64
}

// scatterFit holds what the beta-binomial likelihood needs of the groups: their hits, misses and sizes, equal ones
// together. It counts the groups with units, those that are all hits, and those that are mixed.
type scatterFit struct {
	hits, misses, sizes    []sizeCount
	pooled                 Proportion
	groups, allHits, mixed int
	largest                int64
}

func newScatterFit(groups []Proportion) scatterFit {
	hits, misses, sizes := map[int64]float64{}, map[int64]float64{}, map[int64]float64{}
	fit := scatterFit{pooled: pool(groups)}
	for _, g := range groups {
		if g.N == 0 {
			continue
		}
		hits[g.Count]++
		misses[g.rest()]++
		sizes[g.N]++
		fit.groups++
		fit.largest = max(fit.largest, g.N)
		switch g.Count {
		case g.N:
			fit.allHits++
		case 0:
		default:
			fit.mixed++
		}
	}
	fit.hits, fit.misses, fit.sizes = tally(hits), tally(misses), tally(sizes)
	return fit
}

// finest is the smallest theta worth a look, far below the scatter that the groups' sizes can show.
func (f scatterFit) finest() float64 { return finestScatter / float64(f.largest) }

// tally lists sizes above 0, smallest first: sums then have one order and one last digit.
func tally(counts map[int64]float64) []sizeCount {
	var list []sizeCount
	for size, groups := range counts {
		if size > 0 {
			list = append(list, sizeCount{size: size, groups: groups})
		}
	}
	sort.Slice(list, func(i, j int) bool { return list[i].size < list[j].size })
	return list
}

// logLikelihood is the beta-binomial log-likelihood without its binomial coefficients, 0 < mean < 1, theta >= 0.
func (f scatterFit) logLikelihood(mean, theta float64) float64 {
	return sumOver(f.hits, mean, theta, logRising) +
		sumOver(f.misses, 1-mean, theta, logRising) -
		sumOver(f.sizes, 1, theta, logRising)
}

// slope is the derivative of the profile likelihood with respect to theta. The derivative with respect to the mean is 0
// on the profile, so that only the direct one is left.
func (f scatterFit) slope(theta float64) float64 {
	mean := f.meanAt(theta)
	return sumOver(f.hits, mean, theta, scatterSlope) +
		sumOver(f.misses, 1-mean, theta, scatterSlope) -
		sumOver(f.sizes, 1, theta, scatterSlope)
}

// meanAt is the mean of the largest likelihood for a given theta. In the mean the log-likelihood is a sum of concave
// functions, so its derivative crosses 0 at the one top; with theta = 0 it is the pooled rate.
func (f scatterFit) meanAt(theta float64) float64 {
	if theta == 0 {
		return f.pooled.Rate()
	}
	// Times mean (1-mean), the derivative stays finite at the ends and keeps its sign.
	return root(func(mean float64) float64 {
		up, down := sumOver(f.hits, mean, theta, meanSlope), sumOver(f.misses, 1-mean, theta, meanSlope)
		return float64(float64(mean*(1-mean)) * (up - down))
	}, 1e-300, 1-1e-16)
}

// sumOver adds term(start, theta, size) over the groups.
func sumOver(list []sizeCount, start, theta float64, term func(start, theta float64, size int64) float64) float64 {
	sum := 0.0
	for _, s := range list {
		sum += float64(s.groups * term(start, theta, s.size))
	}
	return sum
}

// directTerms is the number of terms up to which the sums below are added term by term. Longer ones are taken from
// asymptotic series.
const directTerms = 64

// logRising is the sum of log(start + r theta) over r from 0 to size-1: the logarithm of a rising factorial.
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
