package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Tolerance is the range that a measured value is allowed, in the unit of the values. Either bound may be missing, not both.
type Tolerance struct {
	Lower, Upper       float64
	HasLower, HasUpper bool
}

// Capability compares a tolerance with the spread of what is measured. Cp and Pp ask for both bounds; Cpk and Ppk regard the
// nearer one and so where the values lie as well. An index is not defined where its spread is 0 or unknown.
type Capability struct {
	Mean float64
	// Within is the short-term standard deviation, from neighbouring values; Cp and Cpk take it.
	Within  float64
	Cp, Cpk Estimate
	// Overall is the standard deviation of all values; Pp and Ppk take it.
	Overall float64
	Pp, Ppk Estimate
}

// rangeEfficiency is how many degrees of freedom a mean moving range of two is worth, for each of the n-1 that a standard
// deviation has: Cryer & Ryan (1990) J. Quality Technology 22:187-192.
const rangeEfficiency = 0.605

// CapabilityIndices measures the capability of a process from its values.
//
//	Cp, Pp = (upper - lower) / (6 sigma)
//	Cpk, Ppk = min(upper - mean, mean - lower) / (3 sigma)
//	sigma = mean |x - x before| / 1.128 for Cp, Cpk; the standard deviation (n-1) for Pp, Ppk
//
// Source: NIST/SEMATECH e-Handbook 6.1.6; Montgomery (2009) Introduction to Statistical Quality Control, 6th ed., section 8.2.
// Intervals: see IndexOf.
//
// Input: finite values in order of time; level between 0 and 1. With fewer than two values, or all equal, no index is
// defined. A tolerance without bounds or with the lower not below the upper, or a value that is not finite, is an error.
func CapabilityIndices(values []float64, tolerance Tolerance, level float64) (Capability, error) {
	if err := checkCapability(tolerance, level); err != nil {
		return Capability{}, fmt.Errorf("capability: %w", err)
	}
	if err := checkValues(values); err != nil {
		return Capability{}, fmt.Errorf("capability: %w", err)
	}
	if len(values) == 0 {
		return Capability{}, nil
	}
	c := Capability{Mean: mean(values)}
	if len(values) < 2 {
		return c, nil
	}
	n := float64(len(values))
	c.Within, c.Overall = meanRange(values)/meanRangeOfTwo, standardDeviation(values, c.Mean)
	c.Cp, c.Cpk = indices(c.Mean, c.Within, n, rangeEfficiency*(n-1), tolerance, level)
	c.Pp, c.Ppk = indices(c.Mean, c.Overall, n, n-1, tolerance, level)
	return c, nil
}

// indices gives the two indices of a process whose mean and standard deviation were found from n values.
//
//	interval of the first:  index x sqrt(chi²(df; a) / df),  a = (1 -+ level)/2
//	interval of the second: index -+ z sqrt(1/(9n) + index²/(2 df))
//
// df are the degrees of freedom behind sigma: n-1 for the standard deviation, fewer for the moving range.
//
// Source: Kane (1986) J. Quality Technology 18:41-52 and Chou, Owen & Borrego (1990) ibid. 22:223-229 for the first; Bissell
// (1990) Appl. Stat. 39:331-340 for the second, which is approximate and good from about 30 values.
func indices(mean, sigma, n, df float64, t Tolerance, level float64) (spread, nearer Estimate) {
	if sigma == 0 {
		return Estimate{}, Estimate{}
	}
	if t.HasLower && t.HasUpper {
		index := (t.Upper - t.Lower) / (6 * sigma)
		chi := distuv.ChiSquared{K: df}
		spread = Estimate{Value: index, Defined: true, Interval: Interval{
			Low:  index * math.Sqrt(chi.Quantile((1-level)/2)/df),
			High: index * math.Sqrt(chi.Quantile((1+level)/2)/df),
		}}
	}
	distance := math.Inf(1)
	if t.HasUpper {
		distance = t.Upper - mean
	}
	if t.HasLower {
		distance = math.Min(distance, mean-t.Lower)
	}
	index := distance / (3 * sigma)
	half := float64(twoSidedDeviate(level) * math.Sqrt(1/(9*n)+float64(index*index)/(2*df)))
	nearer = Estimate{Value: index, Defined: true, Interval: Interval{Low: index - half, High: index + half}}
	return spread, nearer
}

// standardDeviation is the sample standard deviation of two values or more, with n-1.
func standardDeviation(values []float64, mean float64) float64 {
	sum := 0.0
	for _, x := range values {
		sum += float64((x - mean) * (x - mean))
	}
	return math.Sqrt(sum / float64(len(values)-1))
}

// checkCapability refuses tolerances that allow nothing or everything.
func checkCapability(t Tolerance, level float64) error {
	switch {
	case !t.HasLower && !t.HasUpper:
		return fmt.Errorf("the tolerance has no bound")
	case t.HasLower && t.HasUpper && !(t.Lower < t.Upper):
		return fmt.Errorf("tolerance %v to %v: the lower bound lies below the upper", t.Lower, t.Upper)
	}
	if err := checkValues([]float64{t.Lower, t.Upper}); err != nil {
		return err
	}
	return checkLevel(level)
}
