package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Level95 is the confidence level of every interval that the definitions name.
const Level95 = 0.95

// Interval is a closed range of values, Low <= High.
type Interval struct {
	Low  float64
	High float64
}

// Holds tells whether x lies in the interval; its bounds do.
func (i Interval) Holds(x float64) bool { return i.Low <= x && x <= i.High }

// Estimate is a figure with its interval. Where the data do not determine it, Defined is false and the numbers are 0.
type Estimate struct {
	Value    float64
	Interval Interval
	Defined  bool
}

// checkLevel refuses what is not a confidence level.
func checkLevel(level float64) error {
	if !(level > 0 && level < 1) {
		return fmt.Errorf("confidence level %v: a level lies between 0 and 1, such as 0.95", level)
	}
	return nil
}

// checkProbability refuses what is not a probability, NaN included.
func checkProbability(what string, p float64) error {
	if !(p >= 0 && p <= 1) {
		return fmt.Errorf("%s %v: a probability lies between 0 and 1", what, p)
	}
	return nil
}

// normalQuantile is the standard normal deviate that the share p of the distribution lies below, 0 < p < 1.
func normalQuantile(p float64) float64 { return distuv.UnitNormal.Quantile(p) }

// twoSidedDeviate is the standard normal deviate z with the share level of the distribution between -z and z;
// 1.959964 for 0.95.
func twoSidedDeviate(level float64) float64 { return normalQuantile(0.5 + level/2) }

// normalBelow is the share of the standard normal distribution below z.
func normalBelow(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// cut returns x moved into low to high.
func cut(x, low, high float64) float64 { return math.Max(low, math.Min(high, x)) }

// asProbability brings a computed p-value into the open range that it truly lies in. Rounding can carry a sum of
// probabilities past 1, and below 5e-324 a float64 holds nothing but 0; as no outcome that was observed has probability
// 0, the smallest float64 above 0 stands for everything below it and reads as "at most".
func asProbability(p float64) float64 { return cut(p, math.SmallestNonzeroFloat64, 1) }

// widestRatio bounds how far an interval of a ratio reaches: a factor of 1e150 each way says that nothing is known, and
// leaves it a number that can be written.
const widestRatio = 1e150

// logInterval is the interval value * exp(-+ z se) of a ratio whose logarithm has the standard error se.
func logInterval(value, se, level float64) Interval {
	spread := math.Min(widestRatio, math.Exp(twoSidedDeviate(level)*se))
	return Interval{Low: value / spread, High: value * spread}
}
