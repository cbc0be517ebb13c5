package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// likelihood says which likelihood an iteration climbs: the plain one, or the one with Firth's penalty.
type likelihood bool

const (
	maximumLikelihood   likelihood = false
	penalizedLikelihood likelihood = true
)

const (
	// maxIterations is far beyond need: a fit that exists takes under ten steps, a penalised one under thirty.
	maxIterations = 200
	// maxHalvings bounds the search for a step that does not lower the likelihood.
	maxHalvings = 40
	// settled is the change of log odds below which the iteration has arrived.
	settled = 1e-10
	// patience is how many steps are taken before separation is looked for: by then a fit that exists is all but found.
	patience = 12
)

// state is a point of the iteration: the coefficients, the log odds they give, the (X'WX)⁻¹ of the coefficients not held,
// and the likelihood climbed without binomial coefficients.
type state struct {
	beta       *mat.VecDense
	eta        []float64
	step       *mat.VecDense
	covariance *mat.Dense
	objective  float64
	iterations int
}

// iterate climbs to the top from zero, where every probability is one half; coefficients marked in held stay there. It
// reports separation as soon as the direction it moves in proves it. With Firth's penalty a top always exists, so nothing
// is looked for.
func (d design) iterate(kind likelihood, held []bool) (state, bool, error) {
	now, err := d.at(mat.NewVecDense(d.coefficients, nil), kind, held)
	if err != nil {
		return state{}, false, err
	}
	for n := 1; n <= maxIterations; n++ {
		if kind == maximumLikelihood && n > patience && d.isSeparatedBy(now.step) {
			return now, true, nil
		}
		next, err := d.climb(now, kind, held)
		if err != nil {
			return state{}, false, err
		}
		change := 0.0
		for i := range now.eta {
			change = math.Max(change, math.Abs(next.eta[i]-now.eta[i]))
		}
		now, now.iterations = next, n
		if change < settled {
			return now, false, nil
		}
	}
	return state{}, false, fmt.Errorf("no stable fit after %d steps", maxIterations)
}

// climb takes the Newton step, halved until the likelihood does not fall. A full step can overshoot where probabilities are
// near 0 or 1; near the top rounding can make the likelihood fall by a last digit, which is let pass.
func (d design) climb(now state, kind likelihood, held []bool) (state, error) {
	share := 1.0
	for range maxHalvings {
		var beta mat.VecDense
		beta.AddScaledVec(now.beta, share, now.step)
		next, err := d.at(&beta, kind, held)
		if err == nil && next.objective >= now.objective-float64(1e-12*math.Abs(now.objective)) {
			return next, nil
		}
		share /= 2
	}
	return state{}, fmt.Errorf("the likelihood does not rise any more and is not at its top")
}

// at evaluates likelihood, covariance and Newton step at beta.
//
//	step = (X'WX)⁻¹ X'(y - np),  W = n p (1-p),  y - np = x (1-p) - (n-x) p
//
// W^(1/2) X is brought to a triangle R by orthogonal steps, (X'WX)⁻¹ being R⁻¹R⁻¹': that keeps twice the digits of forming
// X'WX. The residual is written so that it does not cancel where p is near 0 or 1.
func (d design) at(beta *mat.VecDense, kind likelihood, held []bool) (state, error) {
	n := len(d.rows)
	s := state{beta: beta, eta: make([]float64, n)}
	weighted, residual := mat.NewDense(n, d.coefficients, nil), mat.NewVecDense(n, nil)
	for i, y := range d.rows {
		s.eta[i] = mat.Dot(d.x.RowView(i), beta)
		p, q := inverseLogit(s.eta[i])
		root := math.Sqrt(float64(float64(y.N) * float64(p*q)))
		for j := range d.coefficients {
			weighted.Set(i, j, root*d.x.At(i, j))
		}
		s.objective += bernoulliFit(y, s.eta[i])
		residual.SetVec(i, float64(float64(y.Count)*q)-float64(float64(y.rest())*p))
	}
	inverse, logDeterminant, err := triangle(weighted)
	if err != nil {
		return state{}, err
	}
	if kind == penalizedLikelihood {
		s.objective += logDeterminant
		d.addPenalty(weighted, inverse, s.eta, residual)
	}
	if held != nil {
		if inverse, err = triangleWithout(weighted, held); err != nil {
			return state{}, err
		}
	}
	s.covariance = mat.NewDense(d.coefficients, d.coefficients, nil)
	s.covariance.Mul(inverse, inverse.T())
	var score mat.VecDense
	score.MulVec(d.x.T(), residual)
	s.step = mat.NewVecDense(d.coefficients, nil)
	s.step.MulVec(s.covariance, &score)
	return s, nil
}

// addPenalty adds h (1/2 - p) to the residuals, the part of the score that the penalty log |X'WX| / 2 makes.
//
//	h = diagonal of W^(1/2) X (X'WX)⁻¹ X' W^(1/2): the squared rows of W^(1/2) X R⁻¹
//
// In effect every observation gets h/2 of a hit and h/2 of a miss more.
func (d design) addPenalty(weighted, inverse *mat.Dense, eta []float64, residual *mat.VecDense) {
	var orthogonal mat.Dense
	orthogonal.Mul(weighted, inverse)
	for i := range eta {
		row := orthogonal.RowView(i)
		p, q := inverseLogit(eta[i])
		residual.SetVec(i, residual.AtVec(i)+float64(mat.Dot(row, row)*(float64(q-p)/2)))
	}
}
