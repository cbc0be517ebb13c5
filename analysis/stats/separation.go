package stats

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// separationGrain is how far, relative to the most moved observation, one may move the wrong way and still count as not
// moved: directions are found by iteration and are right to a few digits only.
const separationGrain = 1e-4

// smallestStep is the least change of log odds that a run to infinity makes a step. Newton's step there tends to 1, while
// one toward a fit that exists shrinks to nothing.
const smallestStep = 0.1

// isSeparatedBy tells whether a direction of the coefficients proves that no finite fit exists: moving along it raises the
// log odds of no observation that has misses, lowers those of none that has hits (so that it leaves mixed ones alone), and
// moves at least one. The likelihood then rises along it for ever.
//
// Source: Albert & Anderson (1984) Biometrika 71:1-10, complete and quasi-complete separation.
func (d design) isSeparatedBy(direction *mat.VecDense) bool {
	var moved mat.VecDense
	moved.MulVec(d.x, direction)
	largest := mat.Norm(&moved, math.Inf(1))
	if largest < smallestStep {
		return false
	}
	for i, y := range d.rows {
		by := moved.AtVec(i) / largest
		if (y.Count > 0 && by < -separationGrain) || (y.rest() > 0 && by > separationGrain) {
			return false
		}
	}
	return true
}
