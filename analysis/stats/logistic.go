package stats

import (
	"fmt"
	"math"
)

// Observation is one unit, or several alike: the values of the explaining variables and how many of the units had the
// outcome.
type Observation struct {
	Variables []float64
	Outcome   Proportion
}

// Coefficient is one number of a fitted model, on the scale of log odds, with its standard error.
type Coefficient struct {
	Value  float64
	StdErr float64
}

// LogisticFit is a fitted logistic regression.
type LogisticFit struct {
	// Coefficients are the intercept, then one a variable in the order of the variables; Covariance is theirs.
	Coefficients []Coefficient
	Covariance   [][]float64
	// LogLikelihood includes the binomial coefficients and, in a penalised fit, the penalty.
	LogLikelihood float64
	// Deviance is against a model that fits each observation, and is not penalised.
	Deviance   float64
	Iterations int
	// Separated tells that some combination of the variables splits the outcomes: plain estimates would be infinite.
	Separated bool
	// Penalized tells that the numbers are those of Firth's fit, which is finite there too.
	Penalized bool
}

// Logistic fits a logistic regression by maximum likelihood, and by Firth's penalised likelihood where the outcomes are
// separated.
//
//	log(p/(1-p)) = b0 + b1 x1 + …
//	iteratively reweighted least squares: b <- b + (X'WX)⁻¹ X'(y - np),  W = n p (1-p)
//	standard errors: square roots of the diagonal of (X'WX)⁻¹
//
// Source: McCullagh & Nelder (1989) Generalized Linear Models, 2nd ed., section 4.4; separation Albert & Anderson (1984)
// Biometrika 71:1-10.
//
// Input: observations in any order, each with the same number of finite variables (the intercept is added) and counts 0 to
// N; those with N = 0 are ignored. Variables of very different scale should be brought to like scale first. Variables that
// depend on each other, fewer units than coefficients, or impossible input are an error.
func Logistic(observations []Observation) (LogisticFit, error) {
	d, err := newDesign(observations)
	if err != nil {
		return LogisticFit{}, fmt.Errorf("logistic regression: %w", err)
	}
	s, separated, err := d.iterate(maximumLikelihood, nil)
	if err != nil {
		return LogisticFit{}, fmt.Errorf("logistic regression: %w", err)
	}
	if separated {
		return firth(d, true)
	}
	return d.result(s), nil
}

// Firth fits a logistic regression by the likelihood times the square root of the determinant of the information, which
// takes the leading bias away and is finite for every sample.
//
//	log-likelihood + log |X'WX| / 2
//	score: X'(y - np + h (1/2 - p)),  h the diagonal of W^(1/2) X (X'WX)⁻¹ X' W^(1/2)
//	standard errors: square roots of the diagonal of (X'WX)⁻¹ at the estimate
//
// Source: Firth (1993) Biometrika 80:27-38; Heinze & Schemper (2002) Stat. Med. 21:2409-2419.
//
// Input and errors as for Logistic. The intervals that standard errors give are rough where outcomes are separated: use
// PenalizedTest.
func Firth(observations []Observation) (LogisticFit, error) {
	d, err := newDesign(observations)
	if err != nil {
		return LogisticFit{}, fmt.Errorf("firth regression: %w", err)
	}
	return firth(d, false)
}

func firth(d design, separated bool) (LogisticFit, error) {
	s, _, err := d.iterate(penalizedLikelihood, nil)
	if err != nil {
		return LogisticFit{}, fmt.Errorf("firth regression: %w", err)
	}
	fit := d.result(s)
	fit.Penalized, fit.Separated = true, separated
	return fit, nil
}

// LikelihoodRatio tests whether the variables that larger has beyond smaller explain anything. Both are plain fits of the
// same units, the variables of smaller being among those of larger.
//
//	2 (log-likelihood of larger - of smaller) on as many degrees of freedom as larger has coefficients more
//
// Source: Wilks (1938) Ann. Math. Stat. 9:60-62.
//
// A penalised fit has no such test (see PenalizedTest); then, or where larger has no more coefficients, it is an error.
func LikelihoodRatio(larger, smaller LogisticFit) (ChiSquared, error) {
	df := len(larger.Coefficients) - len(smaller.Coefficients)
	switch {
	case larger.Penalized || smaller.Penalized:
		return ChiSquared{}, fmt.Errorf("likelihood ratio: a penalised fit is tested with its own likelihood")
	case df < 1:
		return ChiSquared{}, fmt.Errorf("likelihood ratio: %d coefficients against %d: the larger model has more",
			len(larger.Coefficients), len(smaller.Coefficients))
	}
	return chiSquaredTest(math.Max(0, 2*(larger.LogLikelihood-smaller.LogLikelihood)), df), nil
}

// PenalizedTest tests by Firth's penalised likelihood whether the variables at the given places (from 0) explain anything.
//
//	2 (penalised log-likelihood - the same with their coefficients held at 0), the information keeping all variables
//
// Source: Heinze & Schemper (2002) Stat. Med. 21:2409-2419, section 2.
//
// Input and errors as for Logistic; no place, one twice or one that does not exist is an error too.
func PenalizedTest(observations []Observation, variables ...int) (ChiSquared, error) {
	d, err := newDesign(observations)
	if err != nil {
		return ChiSquared{}, fmt.Errorf("penalised test: %w", err)
	}
	held := make([]bool, d.coefficients)
	for _, v := range variables {
		if v < 0 || v+1 >= d.coefficients || held[v+1] {
			return ChiSquared{}, fmt.Errorf("penalised test: variable %d is named twice or is not among the %d", v, d.coefficients-1)
		}
		held[v+1] = true
	}
	if len(variables) == 0 {
		return ChiSquared{}, fmt.Errorf("penalised test: no variable to test")
	}
	free, _, err := d.iterate(penalizedLikelihood, nil)
	if err != nil {
		return ChiSquared{}, fmt.Errorf("penalised test: %w", err)
	}
	without, _, err := d.iterate(penalizedLikelihood, held)
	if err != nil {
		return ChiSquared{}, fmt.Errorf("penalised test: %w", err)
	}
	return chiSquaredTest(math.Max(0, 2*(free.objective-without.objective)), len(variables)), nil
}
