package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// design holds the observations of a regression as a matrix: a row an observation with units, a column a coefficient, the
// first column all 1 for the intercept.
type design struct {
	rows         []Proportion
	x            *mat.Dense
	coefficients int
}

// worstCondition is the condition of the matrix of variables past which they count as dependent: there a coefficient has
// no correct digit to speak of.
const worstCondition = 1e10

// newDesign builds the matrix and refuses what no model can be fitted to. Dependence is looked for here, before any weight
// is given: later a matrix can be ill-conditioned only because the fit runs off to infinity, which is separation and not an
// error.
func newDesign(observations []Observation) (design, error) {
	var d design
	var cells []float64
	units := int64(0)
	for i, o := range observations {
		if err := o.Outcome.check(); err != nil {
			return design{}, fmt.Errorf("observation %d: %w", i+1, err)
		}
		if err := checkValues(o.Variables); err != nil {
			return design{}, fmt.Errorf("observation %d: %w", i+1, err)
		}
		if len(o.Variables) != len(observations[0].Variables) {
			return design{}, fmt.Errorf("observation %d has %d variables, observation 1 has %d", i+1, len(o.Variables), len(observations[0].Variables))
		}
		if o.Outcome.N > 0 {
			units += o.Outcome.N
			d.rows = append(d.rows, o.Outcome)
			cells = append(append(cells, 1), o.Variables...)
		}
	}
	if len(d.rows) == 0 {
		return design{}, fmt.Errorf("there are no units")
	}
	d.coefficients = 1 + len(observations[0].Variables)
	if len(d.rows) < d.coefficients {
		return design{}, fmt.Errorf("%d different observations do not determine %d coefficients", len(d.rows), d.coefficients)
	}
	d.x = mat.NewDense(len(d.rows), d.coefficients, cells)
	var qr mat.QR
	qr.Factorize(d.x)
	if condition := qr.Cond(); !(condition < worstCondition) {
		return design{}, fmt.Errorf("the variables depend on each other, or differ too much in scale")
	}
	return d, nil
}

// result writes a state of the iteration as a fit, and adds what the iteration left out.
//
//	deviance = 2 (log-likelihood with each observation at its own rate - log-likelihood of the fit)
func (d design) result(s state) LogisticFit {
	fit := LogisticFit{LogLikelihood: s.objective, Iterations: s.iterations}
	for j := range d.coefficients {
		fit.Coefficients = append(fit.Coefficients, Coefficient{
			Value:  s.beta.AtVec(j),
			StdErr: math.Sqrt(s.covariance.At(j, j)),
		})
		fit.Covariance = append(fit.Covariance, mat.Row(nil, j, s.covariance))
	}
	for i, y := range d.rows {
		saturated := y.logLikelihoodAt(y.Rate())
		fit.LogLikelihood += logChoose(y.N, y.Count)
		fit.Deviance += 2 * (saturated - bernoulliFit(y, s.eta[i]))
	}
	return fit
}

// logLikelihoodAt is the log-likelihood of a rate without the binomial coefficient.
func (p Proportion) logLikelihoodAt(rate float64) float64 {
	sum := 0.0
	if p.Count > 0 {
		sum += float64(float64(p.Count) * math.Log(rate))
	}
	if p.rest() > 0 {
		sum += float64(float64(p.rest()) * math.Log1p(-rate))
	}
	return sum
}

// bernoulliFit is the log-likelihood of log odds eta without the binomial coefficient: x eta - n log(1 + exp(eta)), in the
// form that does not overflow.
func bernoulliFit(y Proportion, eta float64) float64 {
	return -float64(float64(y.Count)*softplus(-eta)) - float64(float64(y.rest())*softplus(eta))
}

// softplus is log(1 + exp(x)), written so that exp never sees a positive number.
func softplus(x float64) float64 {
	return math.Max(x, 0) + math.Log1p(math.Exp(-math.Abs(x)))
}

// inverseLogit is the probability with the log odds eta, and its complement. Both keep all their digits however near 0 or
// 1 they are, which 1 - p would not.
func inverseLogit(eta float64) (p, q float64) {
	small := math.Exp(-math.Abs(eta))
	p, q = 1/(1+small), small/(1+small)
	if eta < 0 {
		p, q = q, p
	}
	return p, q
}
