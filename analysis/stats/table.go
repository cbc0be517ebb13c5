package stats

import "fmt"

// Table2x2 is a two-by-two table of counts. Rows are the two groups compared, the first being the one asked about and
// the second the reference; columns are units with and without the property.
//
//	             with  without
//	group          A      B
//	reference      C      D
type Table2x2 struct {
	A, B, C, D int64
}

// Against sets a group beside its reference.
func Against(group, reference Proportion) Table2x2 {
	return Table2x2{A: group.Count, B: group.rest(), C: reference.Count, D: reference.rest()}
}

// total is all units.
func (t Table2x2) total() int64 { return t.A + t.B + t.C + t.D }

// Informative tells whether the table holds units of both groups and both results. A table that does not says nothing
// about the association, whatever its counts.
func (t Table2x2) Informative() bool {
	return t.A+t.B > 0 && t.C+t.D > 0 && t.A+t.C > 0 && t.B+t.D > 0
}

// check refuses negative counts and totals that a float64 cannot hold exactly.
func (t Table2x2) check() error {
	for _, count := range []int64{t.A, t.B, t.C, t.D} {
		if count < 0 || count > maxUnits/4 {
			return fmt.Errorf("cell of %d: a cell of a table lies between 0 and 2^51", count)
		}
	}
	return nil
}

// checkStrata refuses the first stratum that check refuses, and says which it is, counted from 1.
func checkStrata(strata []Table2x2) error {
	for i, t := range strata {
		if err := t.check(); err != nil {
			return fmt.Errorf("stratum %d: %w", i+1, err)
		}
	}
	return nil
}
