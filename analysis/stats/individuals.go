package stats

import (
	"fmt"
	"math"
)

// upperRangeFactor sets the upper limit of a moving range of two values from its mean (D4 for n = 2), as rounded in tables
// of control chart factors.
const upperRangeFactor = 3.267

// IndividualPoint is one measured value on a chart of individuals.
type IndividualPoint struct {
	Value float64
	// Range is the distance from the value before, which the first value has not.
	Range    float64
	HasRange bool
	// Signals are the patterns that this value completes.
	Signals []Signal
}

// IndividualsChart is a chart of single values and of their moving ranges, in the unit of the values.
type IndividualsChart struct {
	Center float64
	// Sigma is the short-term standard deviation.
	Sigma float64
	// Limits hold for every value.
	Limits Interval
	// MeanRange is the mean moving range of the baseline; a range above RangeUpper is out.
	MeanRange  float64
	RangeUpper float64
	Points     []IndividualPoint
	// Defined is false where the baseline has fewer than two values.
	Defined bool
}

// Individuals draws the chart of individual values and moving ranges.
//
//	centre = mean of the baseline,  sigma = mean |x - x before| / 1.128,  limits = centre -+ 3 sigma
//	upper limit of a range = 3.267 x mean range
//
// Source: NIST/SEMATECH e-Handbook 6.3.2.2; signals after Nelson, see Signal.
//
// Input: finite values in order of time, in any unit; the first baseline of them set centre and spread (all of them where
// baseline is 0). Equal baseline values give sigma 0, and then any other value is beyond the limits. A value that is not
// finite, or a baseline outside 0 to the number of values, is an error.
func Individuals(values []float64, baseline int) (IndividualsChart, error) {
	if err := checkValues(values); err != nil {
		return IndividualsChart{}, fmt.Errorf("individuals chart: %w", err)
	}
	if baseline < 0 || baseline > len(values) {
		return IndividualsChart{}, fmt.Errorf("individuals chart: baseline of %d values out of %d", baseline, len(values))
	}
	if baseline == 0 {
		baseline = len(values)
	}
	if baseline < 2 {
		return IndividualsChart{}, nil
	}
	c := IndividualsChart{Center: mean(values[:baseline]), MeanRange: meanRange(values[:baseline]), Defined: true}
	c.Sigma = c.MeanRange / meanRangeOfTwo
	c.Limits = Interval{Low: c.Center - float64(limitSigmas*c.Sigma), High: c.Center + float64(limitSigmas*c.Sigma)}
	c.RangeUpper = upperRangeFactor * c.MeanRange
	var seen []reading
	for i, value := range values {
		seen = append(seen, plainReading(value, c.Center, c.Sigma))
		point := IndividualPoint{Value: value, Signals: nelsonSignals(seen)}
		if i > 0 {
			point.Range, point.HasRange = math.Abs(value-values[i-1]), true
		}
		c.Points = append(c.Points, point)
	}
	return c, nil
}

// checkValues refuses values that are not finite numbers.
func checkValues(values []float64) error {
	for i, x := range values {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("value %d: %v is not a finite number", i+1, x)
		}
	}
	return nil
}

// mean is the arithmetic mean of one value or more. The second pass takes back what rounding left in the first: distances
// in millimetres differ in their last digits only.
func mean(values []float64) float64 {
	sum := 0.0
	for _, x := range values {
		sum += x
	}
	first, off := sum/float64(len(values)), 0.0
	for _, x := range values {
		off += x - first
	}
	return first + off/float64(len(values))
}

// meanRange is the mean distance of neighbouring values, two or more.
func meanRange(values []float64) float64 {
	sum := 0.0
	for i := 1; i < len(values); i++ {
		sum += math.Abs(values[i] - values[i-1])
	}
	return sum / float64(len(values)-1)
}
