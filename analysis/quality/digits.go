package quality

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// A last digit can only be expected to be spread evenly where the values vary over many steps of their last place:
// with 15 steps between the tenth and the ninetieth in a hundred, normally distributed values end in each digit equally
// often to within 0.3 %. Below 50 values an expected count is under 5, and the p rough.
const (
	minDigitSteps  = 15
	minDigitValues = 50
)

// A DigitRow is how often the values of one quantity that one technician wrote end in each digit. It is a measure of a
// habit of writing or of an instrument's display, and says nothing of a reason, still less of a fault.
type DigitRow struct {
	Technician string // as shop/technician
	Quantity   string
	Unit       string // as written
	Places     int64  // decimals
	N          int64
	LeftOut    int64 // values with more decimals, or not written as a plain number
	Steps      float64
	Counts     [10]int64 `db:"-"`
	FiveShare  float64   `db:"-"` // of the digits 0 and 5; even spread gives 0.2
	Chi2       *float64  `db:"-"` // nil where the values are too few, or vary too little to expect an even spread
	P          *float64  `db:"-"`
	Q          *float64  `db:"-"` // Benjamini-Hochberg over the rows with a p
}

// IsPreference is the one test by which last digits are called uneven.
func (r DigitRow) IsPreference() bool { return r.Q != nil && *r.Q < 0.05 }

// Digits lists the last digits by technician and quantity, the most uneven first, then those that are not tested.
func Digits(ctx context.Context, h *history.History, f Filter) ([]DigitRow, error) {
	counted, err := history.Select[digitCount](ctx, h, "measures/digits", f.scope())
	if err != nil {
		return nil, err
	}
	rows := make([]DigitRow, len(counted))
	var p []float64
	for i, count := range counted {
		if rows[i], err = count.judge(); err != nil {
			return nil, fmt.Errorf("last digits of %s, %s: %w", count.Technician, count.Quantity, err)
		}
		if rows[i].P != nil {
			p = append(p, *rows[i].P)
		}
	}
	q, err := stats.BenjaminiHochberg(p)
	if err != nil {
		return nil, err
	}
	for i := range rows {
		if rows[i].P != nil {
			rows[i].Q, q = &q[0], q[1:]
		}
	}
	slices.SortStableFunc(rows, func(a, b DigitRow) int {
		if a.P == nil || b.P == nil {
			return cmp.Compare(orTwo(a.P), orTwo(b.P))
		}
		return cmp.Or(cmp.Compare(*a.P, *b.P), cmp.Compare(*b.Chi2, *a.Chi2))
	})
	return rows, nil
}

// orTwo puts what has no p behind everything that has.
func orTwo(p *float64) float64 {
	if p == nil {
		return 2
	}
	return *p
}

type digitCount struct {
	DigitRow
	Counts numbers
}

func (c digitCount) judge() (DigitRow, error) {
	row := c.DigitRow
	for digit := range row.Counts {
		row.Counts[digit] = int64(c.Counts[digit])
	}
	test, err := stats.TerminalDigits(row.Counts)
	row.FiveShare = test.FiveShare
	if row.N >= minDigitValues && row.Steps >= minDigitSteps {
		row.Chi2, row.P = value(test.Test.Statistic, test.Test.Defined), value(test.Test.P, test.Test.Defined)
	}
	return row, err
}
