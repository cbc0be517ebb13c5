package stats

import "math"

// Clusters sums up units that come in clusters, such as several tasks on one vehicle: what a design effect needs to know of
// them. With k units and y hits in a cluster:
type Clusters struct {
	N                       int64 // clusters with units
	Units, Hits             int64 // sums of k and of y
	UnitsSquared            int64 // sum of k²
	HitsSquared, UnitsXHits int64 // sums of y² and of k y
}

// DesignEffect is the variance of the pooled rate as the clusters show it over that of as many independent units. Above 1
// the units of a cluster are alike and tell less than their number.
//
//	D = m/(m-1) sum (y - k p)² / (n p (1-p)),  p = sum y / n,  n = sum k,  over the m clusters
//
// Source: Rao & Scott (1992) Biometrics 48:577-585, section 2. That it is never below 1, so that chance unlikeness does not
// make a test bolder, is our own rule.
//
// It is 1 where nothing can be told: fewer than two clusters, no cluster of two units, no hits or nothing but hits.
func (c Clusters) DesignEffect() float64 {
	if c.N < 2 || c.UnitsSquared == c.Units || c.Hits == 0 || c.Hits == c.Units {
		return 1
	}
	m, n := float64(c.N), float64(c.Units)
	p := float64(c.Hits) / n
	sum := float64(c.HitsSquared) - float64(2*p*float64(c.UnitsXHits)) + float64(p*p*float64(c.UnitsSquared))
	return math.Max(1, m/(m-1)*sum/(float64(n*p)*(1-p)))
}
