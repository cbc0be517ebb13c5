package stats

import (
	"fmt"
	"math"
)

// BetaBinomial describes groups whose true rates scatter around a mean. Mean is from 0 to 1. Rho, the correlation between
// two units of one group, says how much they scatter: 0 means that all groups share one rate, 1 that each group is all
// hits or none.
//
//	alpha = Mean (1-Rho)/Rho,  beta = (1-Mean) (1-Rho)/Rho
type BetaBinomial struct {
	Mean float64
	Rho  float64
}

// Shrink draws a group's rate toward the mean, the more the fewer its units: the mean of its rate given its count.
//
//	(x + alpha) / (n + alpha + beta) = (x Rho + Mean (1-Rho)) / (n Rho + 1 - Rho)
//
// Source: Skellam (1948) J. R. Stat. Soc. B 10:257-261 for the law; Efron & Morris (1975) J. Am. Stat. Assoc. 70:311-319
// for shrinking by fitted values.
//
// With Rho = 0 it is the mean for every group; a group without units gets the mean.
func (b BetaBinomial) Shrink(group Proportion) float64 {
	if b.Rho == 0 || group.N == 0 {
		return b.Mean
	}
	apart := 1 - b.Rho
	return (float64(float64(group.Count)*b.Rho) + float64(b.Mean*apart)) / (float64(float64(group.N)*b.Rho) + apart)
}

// BetaBinomialFit estimates mean and scatter of the groups' true rates by maximum likelihood.
//
//	log-likelihood = sum over groups of  sum log(mu + r theta), r < x
//	               + sum log(1-mu + r theta), r < n-x  -  sum log(1 + r theta), r < n,   theta = Rho/(1-Rho)
//
// Source: Smith (1983) Appl. Stat. 32:196-204, algorithm AS 189, in Griffiths' (1973) form, Biometrics 29:637-648.
//
// Input: groups in any order, counts 0 to N; groups without units are ignored. Where the likelihood is largest at Rho = 0,
// as with one group, with groups of one unit each, or with groups no further apart than chance sets them, Mean is the
// pooled rate and Rho is 0. Where every group is all hits or none and both occur, Rho is 1 and Mean the share of groups
// that are all hits. No units at all, or an impossible count, is an error.
func BetaBinomialFit(groups []Proportion) (BetaBinomial, error) {
	if err := checkGroups(groups); err != nil {
		return BetaBinomial{}, fmt.Errorf("beta-binomial fit: %w", err)
	}
	pooled := pool(groups)
	if pooled.N == 0 {
		return BetaBinomial{}, fmt.Errorf("beta-binomial fit: no group has units")
	}
	fit := newScatterFit(groups)
	switch {
	case pooled.Count == 0, pooled.Count == pooled.N, fit.groups < 2, fit.largest < 2:
		return BetaBinomial{Mean: pooled.Rate()}, nil
	case fit.mixed == 0:
		return BetaBinomial{Mean: float64(fit.allHits) / float64(fit.groups), Rho: 1}, nil
	}
	theta := fit.bestScatter()
	return BetaBinomial{Mean: fit.meanAt(theta), Rho: theta / (1 + theta)}, nil
}

// finestScatter times the largest group is the smallest theta on the grid; maxScatter is the largest, at which every
// group would be all hits or none.
const (
	finestScatter = 1e-4
	maxScatter    = 1e6
)

// bestScatter finds the theta of the largest likelihood. The profile over theta can have several peaks where sizes are
// very unequal, so a grid, a factor of four apart, finds the highest, and the slope finds its top. A gain within rounding
// is none: then the slope at 0 tells whether the top is there or a little above.
func (f scatterFit) bestScatter() float64 {
	flat := f.logLikelihood(f.meanAt(0), 0)
	best, highest := 0.0, flat+float64(math.Abs(flat)*1e-12)
	for theta := f.finest(); theta <= maxScatter; theta *= 4 {
		if value := f.logLikelihood(f.meanAt(theta), theta); value > highest {
			best, highest = theta, value
		}
	}
	switch {
	case best > 0:
		return root(f.slope, best/4, best*4)
	case f.slope(0) <= 0:
		return 0
	}
	theta := f.finest()
	for theta < maxScatter && f.slope(theta) > 0 {
		theta *= 4
	}
	return root(f.slope, 0, theta)
}
