package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// likelihood says which likelihood an iteration climbs.
type likelihood bool

const (
	maximumLikelihood   likelihood = false
	penalizedLikelihood likelihood = true
)

const (
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

// iterate climbs to the top from zero; coefficients marked in held stay there. It reports separation as soon as the
// direction it moves in proves it.
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

// climb takes the Newton step, halved until the likelihood does not fall.
func (d design) climb(now state, kind likelihood, held []bool) (state, error) {
	share := 1.0
	for range maxHalvings {
		var beta mat.VecDense
		beta.AddScaledVec(now.beta, share, now.step)
		next, err := d.at(&beta, kind, held)
		if err == nil && next.objective >= now.objective-1e-12*math.Abs(now.objective) {
			return next, nil
		}
		share /= 2
	}
	return state{}, fmt.Errorf("the likelihood does not rise any more and is not at its top")
}

// at evaluates likelihood, covariance and Newton step at beta. The weighted least squares are solved by orthogonal
// triangles, which keep twice the digits of the normal equations.
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
		// y - np, without cancellation where p is near 0 or 1.
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

// addPenalty adds h (1/2 - p) to the residuals.
func (d design) addPenalty(weighted, inverse *mat.Dense, eta []float64, residual *mat.VecDense) {
	var orthogonal mat.Dense
	orthogonal.Mul(weighted, inverse)
	for i := range eta {
		row := orthogonal.RowView(i)
		p, q := inverseLogit(eta[i])
		residual.SetVec(i, residual.AtVec(i)+float64(mat.Dot(row, row)*(float64(q-p)/2)))
	}
}

// triangle gives R⁻¹ of the weighted variables, whose square R⁻¹R⁻¹' is (X'WX)⁻¹, and log |X'WX| / 2.
func triangle(weighted *mat.Dense) (*mat.Dense, float64, error) {
	_, columns := weighted.Dims()
	var qr mat.QR
	qr.Factorize(weighted)
	var r, inverse mat.Dense
	qr.RTo(&r)
	square := r.Slice(0, columns, 0, columns)
	logDeterminant := 0.0
	for j := range columns {
		logDeterminant += math.Log(math.Abs(square.At(j, j)))
	}
	if math.IsInf(logDeterminant, 0) || math.IsNaN(logDeterminant) {
		return nil, 0, fmt.Errorf("the information is used up before the fit is found")
	}
	if err := inverse.Inverse(square); err != nil {
		if _, isRough := err.(mat.Condition); !isRough {
			return nil, 0, err
		}
	}
	return &inverse, logDeterminant, nil
}

// triangleWithout is R⁻¹ for the coefficients not held, with rows of zeros for those that are.
func triangleWithout(weighted *mat.Dense, held []bool) (*mat.Dense, error) {
	rows, columns := weighted.Dims()
	var free []int
	for j := range columns {
		if !held[j] {
			free = append(free, j)
		}
	}
	part := mat.NewDense(rows, len(free), nil)
	for k, j := range free {
		part.SetCol(k, mat.Col(nil, j, weighted))
	}
	small, _, err := triangle(part)
	if err != nil {
		return nil, err
	}
	full := mat.NewDense(columns, len(free), nil)
	for k, j := range free {
		full.SetRow(j, mat.Row(nil, k, small))
	}
	return full, nil
}

// isSeparatedBy tells whether moving the coefficients in this direction raises the log odds of no observation that is all
// misses, lowers those of none that is all hits, leaves mixed ones alone, and moves at least one: then the likelihood rises
// for ever.
func (d design) isSeparatedBy(direction *mat.VecDense) bool {
	var moved mat.VecDense
	moved.MulVec(d.x, direction)
	largest := mat.Norm(&moved, math.Inf(1))
	// A fit that exists is approached by ever smaller steps, one that does not by steps of about one.
	if largest < 0.1 {
		return false
	}
	for i, y := range d.rows {
		by := moved.AtVec(i) / largest
		if (y.Count > 0 && by < -1e-4) || (y.rest() > 0 && by > 1e-4) {
			return false
		}
	}
	return true
}
