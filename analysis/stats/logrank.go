package stats

import (
	"fmt"

	"gonum.org/v1/gonum/mat"
)

// LogRank is the comparison of survival curves.
type LogRank struct {
	// Observed are the events seen in each group, over all strata.
	Observed []float64
	// Expected are the events that each group would have had if all shared one curve in each stratum.
	Expected []float64
	// Test asks whether they do.
	Test ChiSquared
}

// LogRankTest tests whether groups share one survival curve within each stratum. strata[s][g] holds the units of group g in
// stratum s; a plain test has one stratum.
//
//	on each event day of a stratum, with d events among n at risk, n_g of them in group g:
//	    expected in g = d n_g / n,  covariance of g and h = d (n-d)/(n-1) (n_g/n) ([g = h] - n_h/n)
//	chi-squared = (O-E)' V⁻¹ (O-E) summed over days and strata, one group left out, on groups - 1 degrees of freedom
//
// Source: Mantel (1966) Cancer Chemother. Rep. 50:163-170; Peto & Peto (1972) J. R. Stat. Soc. A 135:185-207; several
// groups and strata as in Kalbfleisch & Prentice (1980), section 1.4.
//
// Input: the same number of groups in every stratum, 2 or more, each of them possibly empty. For a limited follow-up pass
// the units through Restrict first. Groups that are never at risk together with another on an event day do not count; the
// test is not defined where fewer than two are left. Days below 0 or not finite, or a stratum with another number of
// groups, are an error.
func LogRankTest(strata [][][]Survival) (LogRank, error) {
	if len(strata) == 0 || len(strata[0]) < 2 {
		return LogRank{}, fmt.Errorf("log-rank: a comparison needs at least two groups")
	}
	groups := len(strata[0])
	result := LogRank{Observed: make([]float64, groups), Expected: make([]float64, groups)}
	covariance := mat.NewSymDense(groups, nil)
	for s, stratum := range strata {
		if len(stratum) != groups {
			return LogRank{}, fmt.Errorf("log-rank: stratum %d has %d groups, stratum 1 has %d", s+1, len(stratum), groups)
		}
		if err := checkStratum(stratum); err != nil {
			return LogRank{}, fmt.Errorf("log-rank: stratum %d: %w", s+1, err)
		}
		for _, day := range eventDays(stratum...) {
			result.add(day, covariance)
		}
	}
	result.Test = result.test(covariance)
	return result, nil
}

func checkStratum(stratum [][]Survival) error {
	for g, units := range stratum {
		if err := checkSurvival(units); err != nil {
			return fmt.Errorf("group %d: %w", g+1, err)
		}
	}
	return nil
}

// add takes one event day into the sums. The last unit at risk has its event with certainty and adds no variance, where the
// formula would be 0/0.
func (r LogRank) add(day eventDay, covariance *mat.SymDense) {
	n, d := float64(sumOf(day.atRisk)), float64(sumOf(day.events))
	for g, atRisk := range day.atRisk {
		share := float64(atRisk) / n
		r.Observed[g] += float64(day.events[g])
		r.Expected[g] += float64(d * share)
		if n < 2 {
			continue
		}
		spread := float64(d * ((n - d) / (n - 1)))
		for h := g; h < len(day.atRisk); h++ {
			same := 0.0
			if g == h {
				same = 1
			}
			part := float64(float64(spread*share) * (same - float64(day.atRisk[h])/n))
			covariance.SetSym(g, h, covariance.At(g, h)+part)
		}
	}
}

// test forms the statistic over the groups that have a variance, one of them left out. Observed less expected adds up to 0
// over the groups, so that the one left out says nothing more, and V without it can be inverted.
func (r LogRank) test(covariance *mat.SymDense) ChiSquared {
	var kept []int
	for g := range r.Observed {
		if covariance.At(g, g) > 0 {
			kept = append(kept, g)
		}
	}
	if len(kept) < 2 {
		return ChiSquared{}
	}
	kept = kept[1:]
	off, v := mat.NewVecDense(len(kept), nil), mat.NewSymDense(len(kept), nil)
	for i, g := range kept {
		off.SetVec(i, r.Observed[g]-r.Expected[g])
		for j := i; j < len(kept); j++ {
			v.SetSym(i, j, covariance.At(g, kept[j]))
		}
	}
	var decomposed mat.Cholesky
	var solved mat.VecDense
	if !decomposed.Factorize(v) || decomposed.SolveVecTo(&solved, off) != nil {
		return ChiSquared{}
	}
	return chiSquaredTest(mat.Dot(off, &solved), len(kept))
}
