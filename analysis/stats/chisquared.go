package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// ChiSquared is a test whose statistic follows the chi-squared distribution where the hypothesis holds.
type ChiSquared struct {
	// Statistic is 0 or more; the larger, the further the data are from the hypothesis.
	Statistic float64
	// DF is the number of degrees of freedom, 1 or more.
	DF int
	// P is the probability of a statistic at least as large where the hypothesis holds.
	P float64
	// Defined is false where the data do not allow the test; the numbers are then 0.
	Defined bool
}

// chiSquaredTest puts a statistic and its p together; df is 1 or more. An infinite statistic is no test.
func chiSquaredTest(statistic float64, df int) ChiSquared {
	if df < 1 || math.IsNaN(statistic) || math.IsInf(statistic, 0) {
		return ChiSquared{}
	}
	return ChiSquared{Statistic: statistic, DF: df, P: chiSquaredTail(statistic, df), Defined: true}
}

// chiSquaredTail is the probability that a chi-squared variable with df degrees of freedom is at least x. One degree
// is the commonest and is left to erfc, which is exact down to 1e-300.
func chiSquaredTail(x float64, df int) float64 {
	if df == 1 {
		return asProbability(math.Erfc(math.Sqrt(x / 2)))
	}
	return asProbability(distuv.ChiSquared{K: float64(df)}.Survival(x))
}

// PearsonChiSquared tests whether rows and columns of a table of counts are independent, without continuity correction.
//
//	X² = sum over cells (seen - expected)² / expected,  expected = row sum x column sum / n,  df = (rows-1)(columns-1)
//
// Source: Pearson (1900) Phil. Mag. 50:157-175, with Fisher's (1922) degrees of freedom, J. R. Stat. Soc. 85:87-94.
//
// Input: rows of equal length, counts from 0. Rows and columns without any unit are left out; with fewer than two of
// either left the test is not defined. The second result is the smallest expected count: under 5 the p is rough, and
// an exact test is called for (Cochran 1954, Biometrics 10:417-451). Rows of different length or a negative count are
// an error.
func PearsonChiSquared(table [][]int64) (ChiSquared, float64, error) {
	m, err := newMargins(table)
	if err != nil {
		return ChiSquared{}, 0, fmt.Errorf("chi-squared test: %w", err)
	}
	if len(m.rows) < 2 || len(m.columns) < 2 {
		return ChiSquared{}, 0, nil
	}
	statistic, smallest := 0.0, math.Inf(1)
	for i, row := range m.cells {
		for j, seen := range row {
			expected := float64(float64(m.rows[i]) / float64(m.total) * float64(m.columns[j]))
			off := float64(seen) - expected
			statistic += float64(off*off) / expected
			smallest = math.Min(smallest, expected)
		}
	}
	return chiSquaredTest(statistic, (len(m.rows)-1)*(len(m.columns)-1)), smallest, nil
}
