package stats

import (
	"fmt"
	"sort"
)

// BenjaminiHochberg turns p-values into q-values: calling every test with q below x different keeps the expected share
// of false calls among the calls below x.
//
//	q of the i-th smallest p = min over j >= i of p(j) m / j, at most 1
//
// Source: Benjamini & Hochberg (1995) J. R. Stat. Soc. B 57:289-300, section 3.1, in the adjusted form of Yekutieli &
// Benjamini (1999) J. Stat. Plan. Inference 82:171-196.
//
// Input: p-values of m tests, in any order, each from 0 to 1; the argument is left as it is. The q-values stand in the
// order of the input, are never below their p, keep its order, and are equal where the p are. No p gives no q. A value
// that is no probability, NaN included, is an error.
func BenjaminiHochberg(p []float64) ([]float64, error) {
	order, err := ascending(p)
	if err != nil {
		return nil, fmt.Errorf("benjamini-hochberg: %w", err)
	}
	q, smallest, m := make([]float64, len(p)), 1.0, float64(len(p))
	for i := len(order) - 1; i >= 0; i-- {
		// m/j is at least 1, so q is not below p whatever the rounding.
		smallest = min(smallest, p[order[i]]*(m/float64(i+1)))
		q[order[i]] = smallest
	}
	return q, nil
}

// ascending gives the places of p from the smallest value to the largest, equal ones in the order of the input, and
// refuses what is no probability.
func ascending(p []float64) ([]int, error) {
	order := make([]int, len(p))
	for i, value := range p {
		if err := checkProbability(fmt.Sprintf("p-value %d", i+1), value); err != nil {
			return nil, err
		}
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return p[order[a]] < p[order[b]] })
	return order, nil
}
