package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// limitTail is the probability that a period by chance alone lies beyond a limit on one side: that of a normal variable
// beyond three standard deviations, rounded as control chart tables print it.
const limitTail = 0.00135

// countLaw is a distribution of counts with one peak, 0 to most, given by how the probabilities follow one another.
type countLaw struct {
	peak, most int64
	// ratio is the probability of r+1 over that of r.
	ratio func(r int64) float64
	// spread is a standard deviation of the count.
	spread float64
	// smooth is the quantile of the expected count, which chance adds next to nothing to where the spread is wide.
	smooth func(a float64) float64
}

// betaBinomialLaw is the count of hits among n units whose rate is known only from a baseline with x hits among units:
// the rate is beta-distributed with parameters x + 1/2 and units - x + 1/2.
//
//	P(r+1) / P(r) = (n-r) (r+a) / ((r+1) (n-r-1+b)),  a = x + 1/2,  b = units - x + 1/2
//
// Source: Jeffreys (1946) Proc. R. Soc. A 186:453-461 for the prior; Skellam (1948) J. R. Stat. Soc. B 10:257-261 for the
// law.
func betaBinomialLaw(n int64, baseline Proportion) countLaw {
	a, b, size := float64(baseline.Count)+0.5, float64(baseline.rest())+0.5, float64(n)
	rate := distuv.Beta{Alpha: a, Beta: b}
	law := countLaw{most: n, spread: size * rate.StdDev(),
		ratio: func(r int64) float64 {
			x := float64(r)
			return (size - x) / (x + 1) * ((x + a) / (size - x - 1 + b))
		},
		smooth: func(p float64) float64 { return size * mathext.InvRegIncBeta(a, b, p) }}
	switch {
	case a > 1 && b > 1:
		law.peak = int64(cut((size+1)*(a-1)/(a+b-2), 0, size))
	case a > b:
		law.peak = n
	}
	return law
}

// negativeBinomialLaw is the count of occurrences on n units whose mean is known only from a baseline with x occurrences
// on units: the mean is gamma-distributed with shape x + 1/2 and rate units.
//
//	P(r+1) / P(r) = (r+k) / (r+1) n / (n+units),  k = x + 1/2
//
// Source: as betaBinomialLaw; Greenwood & Yule (1920) J. R. Stat. Soc. 83:255-279 for the law.
func negativeBinomialLaw(n int64, baseline Proportion) countLaw {
	k, times := float64(baseline.Count)+0.5, float64(n)/float64(baseline.N)
	share := times / (1 + times)
	law := countLaw{most: math.MaxInt64, spread: math.Sqrt(k) * times,
		ratio: func(r int64) float64 {
			x := float64(r)
			return (x + k) / (x + 1) * share
		},
		smooth: func(p float64) float64 { return times * mathext.GammaIncRegInv(k, p) }}
	if k > 1 {
		law.peak = int64((k - 1) * times)
	}
	return law
}

const (
	// negligible is the share of the peak's probability below which a tail is left: it cannot move a sum of thousandths.
	negligible = 1e-16
	// widest is the spread past which counts need not be told one by one: one more or less is then a hundred-thousandth of
	// it.
	widest = 1e5
)

// limits gives the largest r with P(R < r) <= tail and the smallest with P(R > r) <= tail.
func (l countLaw) limits(tail float64) Interval {
	if l.spread > widest {
		return Interval{Low: math.Floor(l.smooth(tail)), High: math.Ceil(l.smooth(1 - tail))}
	}
	least, weights := l.weights()
	total := 0.0
	for _, weight := range weights {
		total += weight
	}
	allowed := tail * total
	first, last := 0, len(weights)-1
	for left := weights[first]; left <= allowed; left += weights[first] {
		first++
	}
	for left := weights[last]; left <= allowed; left += weights[last] {
		last--
	}
	return Interval{Low: float64(least) + float64(first), High: float64(least) + float64(last)}
}

// weights lists the probabilities of the counts from least on, relative to the peak's: what is not listed is negligible.
func (l countLaw) weights() (least int64, weights []float64) {
	weight := 1.0
	for least = l.peak; least > 0 && weight >= negligible; least-- {
		weights = append(weights, weight)
		weight /= l.ratio(least - 1)
	}
	weights = append(weights, weight)
	slices.Reverse(weights)
	weight = 1
	for r := l.peak; r < l.most && weight >= negligible; r++ {
		weight *= l.ratio(r)
		weights = append(weights, weight)
	}
	return least, weights
}
