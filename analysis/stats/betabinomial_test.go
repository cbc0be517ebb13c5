package stats

import (
	"fmt"
	"math"
	"testing"
)

func TestBetaBinomialFit(t *testing.T) {
	var file struct {
		Examples []struct {
			Families []int
			N        int64
			Computed struct {
				ML            [2]float64
				LogLikelihood float64 `json:"loglik"`
			}
			Published struct {
				ML            [2]float64
				LogLikelihood float64 `json:"loglik"`
			}
		}
	}
	source := reference(t, "13_beta_binomial.json", &file)
	e := file.Examples[0]
	var groups []Proportion
	for males, families := range e.Families {
		for range families {
			groups = append(groups, Proportion{Count: int64(males), N: e.N})
		}
	}
	fit := must[BetaBinomial](t)(BetaBinomialFit(groups))
	scale := (1 - fit.Rho) / fit.Rho
	// R's optimiser leaves 3e-5 in these; the printed ones stopped earlier still, at a likelihood lower by 1.5e-6.
	source.near("alpha", fit.Mean*scale, e.Computed.ML[0], 1e-6)
	source.near("beta", (1-fit.Mean)*scale, e.Computed.ML[1], 1e-6)
	source.near("alpha as printed", fit.Mean*scale, e.Published.ML[0], 3e-4)
	theta := fit.Rho / (1 - fit.Rho)
	likelihood := newScatterFit(groups).logLikelihood(fit.Mean, theta)
	for males, families := range e.Families {
		likelihood += float64(families) * logChoose(e.N, int64(males))
	}
	source.near("log-likelihood", likelihood, e.Computed.LogLikelihood, 1e-9)
	source.printed("log-likelihood as printed", likelihood, e.Published.LogLikelihood, 1)
}

// With two units a group the law has as many parameters as the counts have, and the estimate can be written down: mean
// (f1 + 2 f2)/2N and rho = 1 - f1/(2N mean (1-mean)), which is also Cohen's (1960) kappa of two raters with equal margins.
func TestBetaBinomialOfPairs(t *testing.T) {
	source := from(t, "Griffiths (1973) Biometrics 29:637-648, written out for pairs")
	for _, f := range [][3]int64{{50, 20, 30}, {400, 90, 25}, {7, 2, 1}} {
		var groups []Proportion
		for count, families := range f {
			for range families {
				groups = append(groups, Proportion{Count: int64(count), N: 2})
			}
		}
		n := float64(f[0] + f[1] + f[2])
		mean := float64(f[1]+2*f[2]) / (2 * n)
		fit := must[BetaBinomial](t)(BetaBinomialFit(groups))
		source.near(fmt.Sprint(f, " mean"), fit.Mean, mean, 1e-9)
		source.near(fmt.Sprint(f, " rho"), fit.Rho, 1-float64(f[1])/(2*n*mean*(1-mean)), 1e-7)
	}
}

func TestBetaBinomialAtItsBounds(t *testing.T) {
	for name, c := range map[string]struct {
		groups []Proportion
		want   BetaBinomial
	}{
		"one group":            {[]Proportion{{3, 10}}, BetaBinomial{Mean: 0.3}},
		"equal rates":          {[]Proportion{{3, 10}, {6, 20}, {9, 30}}, BetaBinomial{Mean: 0.3}},
		"closer than chance":   {[]Proportion{{10, 100}, {11, 100}, {9, 100}, {10, 100}}, BetaBinomial{Mean: 0.1}},
		"groups of one":        {[]Proportion{{1, 1}, {0, 1}, {0, 1}, {0, 1}}, BetaBinomial{Mean: 0.25}},
		"no hits":              {[]Proportion{{0, 5}, {0, 9}}, BetaBinomial{}},
		"only hits":            {[]Proportion{{5, 5}, {9, 9}}, BetaBinomial{Mean: 1}},
		"all or none":          {[]Proportion{{0, 8}, {6, 6}, {0, 7}, {0, 2}}, BetaBinomial{Mean: 0.25, Rho: 1}},
		"empty groups ignored": {[]Proportion{{0, 0}, {3, 10}}, BetaBinomial{Mean: 0.3}},
	} {
		if got := must[BetaBinomial](t)(BetaBinomialFit(c.groups)); got != c.want {
			t.Errorf("%s: got %v, want %v", name, got, c.want)
		}
	}
	if _, err := BetaBinomialFit([]Proportion{{0, 0}}); err == nil {
		t.Error("no units pass")
	}
	if _, err := BetaBinomialFit([]Proportion{{1, 0}}); err == nil {
		t.Error("1 of 0 passes")
	}
}

// Two huge groups with one rate pull the slope at 0 down, a hundred pairs that are all or none put the top far away.
func TestBetaBinomialWithTwoPeaks(t *testing.T) {
	groups := []Proportion{{200_000, 1_000_000}, {200_000, 1_000_000}}
	for i := range 100 {
		groups = append(groups, Proportion{Count: int64(2 * (i % 5 / 4)), N: 2})
	}
	f := newScatterFit(groups)
	if f.slope(0) >= 0 {
		t.Fatalf("the slope at 0 is %v: the groups do not have two peaks", f.slope(0))
	}
	fit := must[BetaBinomial](t)(BetaBinomialFit(groups))
	if fit.Rho < 0.1 || f.logLikelihood(fit.Mean, fit.Rho/(1-fit.Rho)) < f.logLikelihood(0.2, 0)+10 {
		t.Errorf("got %v", fit)
	}
}

func TestShrink(t *testing.T) {
	prior := BetaBinomial{Mean: 0.2, Rho: 0.1} // alpha 1.8, beta 7.2
	for group, want := range map[Proportion]float64{
		{5, 10}: (5 + 1.8) / (10 + 9), {0, 1}: 1.8 / 10, {0, 0}: 0.2, {500000, 1000000}: 500001.8 / 1000009,
	} {
		if got := prior.Shrink(group); !tolerantlyEqual(got, want, 1e-12) {
			t.Errorf("%v: got %v, want %v", group, got, want)
		}
	}
	if got := (BetaBinomial{Mean: 0.3, Rho: 1}).Shrink(Proportion{2, 8}); got != 0.25 {
		t.Errorf("rho 1: got %v, want the group's own rate", got)
	}
}

// The sums that are taken from series agree with adding up.
func TestScatterSums(t *testing.T) {
	for _, start := range []float64{1e-6, 0.02, 0.5, 1} {
		for _, theta := range []float64{1e-9, 1e-6, 1e-4, 0.01, 1, 50} {
			for _, size := range []int64{1, 64, 65, 200, 5000} {
				var rising, byMean, byScatter float64
				for r := range size {
					at := start + float64(r)*theta
					rising += math.Log(at)
					byMean += 1 / at
					byScatter += float64(r) / at
				}
				for what, pair := range map[string][2]float64{
					"rising":  {logRising(start, theta, size), rising},
					"mean":    {meanSlope(start, theta, size), byMean},
					"scatter": {scatterSlope(start, theta, size), byScatter},
				} {
					if math.Abs(pair[0]-pair[1]) > 2e-12*math.Max(1, math.Abs(pair[1])) {
						t.Errorf("%s from %g by %g over %d: got %.15g, want %.15g", what, start, theta, size, pair[0], pair[1])
					}
				}
			}
		}
	}
}

// logChoose is the logarithm of the number of ways to choose k of n.
func logChoose(n, k int64) float64 {
	log := func(m int64) float64 { value, _ := math.Lgamma(float64(m) + 1); return value }
	return log(n) - log(k) - log(n-k)
}
