package stats

import "sort"

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

// newScatterFit counts hits, misses and sizes. The likelihood is a sum over them, so that a thousand small groups with a
// few different counts cost no more than those few.
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

// logLikelihood is the beta-binomial log-likelihood without its binomial coefficients, which no parameter changes.
//
//	sum of log(mean + r theta), r < x, + log(1-mean + r theta), r < n-x, - log(1 + r theta), r < n
//
// Input: 0 < mean < 1, theta >= 0. In this form theta = 0 is the binomial law and nothing special.
func (f scatterFit) logLikelihood(mean, theta float64) float64 {
	return sumOver(f.hits, mean, theta, logRising) +
		sumOver(f.misses, 1-mean, theta, logRising) -
		sumOver(f.sizes, 1, theta, logRising)
}

// slope is the derivative of the profile likelihood with respect to theta.
//
//	sum of r/(mean + r theta), r < x, + r/(1-mean + r theta), r < n-x, - r/(1 + r theta), r < n
//
// The derivative with respect to the mean is 0 on the profile, so that only the direct one is left. At theta = 0 it is the
// score of Tarone's (1979) test for scatter, Biometrika 66:585-590.
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
