package stats

import "fmt"

// DigitTest is the test that the last digits of measured values occur equally often.
type DigitTest struct {
	// N is the number of values.
	N int64
	// FiveShare is the share of the digits 0 and 5, which rounding by eye favours; even spread gives 0.2.
	FiveShare float64
	Test      ChiSquared
}

// TerminalDigits tests last digits for preference.
//
//	X² = sum (count - n/10)² / (n/10) on 9 degrees of freedom
//
// Source: the chi-squared test of goodness of fit, Pearson (1900) Phil. Mag. 50:157-175; on preference for end digits in
// measurements Preece (1981) The Statistician 30:31-60.
//
// Input: how many values end in each digit from 0 to 9; the caller sees to it that values were recorded to the same
// place. Below 50 values, an expected count under 5, the p is rough. No values: not defined. It tells of a habit of
// writing, or of an instrument that shows only some digits, not of a reason. A negative count is an error.
func TerminalDigits(counts [10]int64) (DigitTest, error) {
	for digit, count := range counts {
		if count < 0 || count > maxUnits/10 {
			return DigitTest{}, fmt.Errorf("terminal digits: %d values that end in %d: a count lies between 0 and 2^49", count, digit)
		}
	}
	n := sumOf(counts[:])
	if n == 0 {
		return DigitTest{}, nil
	}
	expected, statistic := float64(n)/10, 0.0
	for _, count := range counts {
		off := float64(count) - expected
		statistic += float64(off*off) / expected
	}
	return DigitTest{
		N:         n,
		FiveShare: float64(counts[0]+counts[5]) / float64(n),
		Test:      chiSquaredTest(statistic, len(counts)-1),
	}, nil
}
