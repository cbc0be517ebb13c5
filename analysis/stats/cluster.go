package stats

import (
	"fmt"
	"math"
)

// ClusterGroup is one group of a comparison whose units come in clusters, such as several tasks on one vehicle.
type ClusterGroup struct {
	// Pooled adds the clusters up.
	Pooled Proportion
	// DesignEffect is the variance of the group's rate over that of as many independent units. Above 1 the units of a
	// cluster are alike and count for less than they seem.
	DesignEffect float64
}

// ClusterTest is the comparison of groups with the likeness of units within clusters taken into account.
type ClusterTest struct {
	Groups []ClusterGroup
	Test   ChiSquared
}

// RaoScott tests whether groups share one rate when their units come in clusters: counts and sizes are divided by the
// design effect of the group, and the usual chi-squared test is made on what is left.
//
//	d = n v / (p (1-p)),  v = m/(m-1) sum (x_i - n_i p)² / n²   over the m clusters of a group, n and p pooled
//	X² = sum (x/d - (n/d) P)² / ((n/d) P (1-P)),  P = sum x/d / sum n/d,  on groups - 1 degrees of freedom
//
// Source: Rao & Scott (1992) Biometrics 48:577-585, section 2. That a design effect below 1 counts as 1 in the test, so
// that chance likeness never makes it bolder, is our own rule.
//
// Input: groups[g] lists the clusters of group g, counts 0 to N; clusters without units are ignored. A group whose rate is
// 0 or 1 has design effect 1. Not defined with fewer than two groups, a group with fewer than two clusters, or one common
// rate of 0 or 1. An impossible count is an error.
func RaoScott(groups [][]Proportion) (ClusterTest, error) {
	var result ClusterTest
	defined := len(groups) > 1
	for g, clusters := range groups {
		if err := checkGroups(clusters); err != nil {
			return ClusterTest{}, fmt.Errorf("rao-scott: clusters of group %d: %w", g+1, err)
		}
		effect, ok := designEffect(clusters)
		defined = defined && ok
		result.Groups = append(result.Groups, ClusterGroup{Pooled: pool(clusters), DesignEffect: effect})
	}
	if defined {
		result.Test = adjustedTest(result.Groups)
	}
	return result, nil
}

// designEffect is the variance of the pooled rate as the clusters show it over p (1-p)/n. It is false, and 1, where there
// are too few clusters to tell. Where all units agree there is no variance to compare, and 1 changes nothing.
func designEffect(clusters []Proportion) (float64, bool) {
	pooled, m, sum := pool(clusters), 0.0, 0.0
	p := pooled.Rate()
	for _, c := range clusters {
		if c.N == 0 {
			continue
		}
		m++
		off := float64(c.Count) - float64(float64(c.N)*p)
		sum += float64(off * off)
	}
	switch {
	case m < 2:
		return 1, false
	case pooled.Count == 0 || pooled.Count == pooled.N:
		return 1, true
	}
	return m / (m - 1) * sum / float64(pooled.N) / float64(p*(1-p)), true
}

// adjustedTest is Pearson's test on the counts divided by their design effects.
func adjustedTest(groups []ClusterGroup) ChiSquared {
	hits, units := 0.0, 0.0
	for _, g := range groups {
		d := math.Max(1, g.DesignEffect)
		hits += float64(g.Pooled.Count) / d
		units += float64(g.Pooled.N) / d
	}
	common := hits / units
	if common == 0 || common == 1 {
		return ChiSquared{}
	}
	statistic := 0.0
	for _, g := range groups {
		d := math.Max(1, g.DesignEffect)
		n := float64(g.Pooled.N) / d
		off := float64(g.Pooled.Count)/d - float64(n*common)
		statistic += float64(off*off) / float64(float64(n*common)*(1-common))
	}
	return chiSquaredTest(statistic, len(groups)-1)
}
