package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// triangle gives R⁻¹ of the weighted variables, and log |X'WX| / 2, the sum of the logarithms of R's diagonal.
//
//	W^(1/2) X = Q R,  Q orthogonal,  R upper triangular,  (X'WX)⁻¹ = R⁻¹R⁻¹'
//
// An error where all weight is gone: every probability has come to 0 or 1 as far as a float64 tells.
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
		// A warning of poor condition comes with the inverse; what separates outcomes is allowed to be ill-conditioned.
		if _, isRough := err.(mat.Condition); !isRough {
			return nil, 0, err
		}
	}
	return &inverse, logDeterminant, nil
}

// triangleWithout is R⁻¹ for the coefficients not held, with rows of zeros for those that are: they then get no step and no
// variance, and the rest of the algebra need not know of them.
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
