package stats

import (
	"fmt"
	"math"
)

// Comparison says how two rates will be told apart.
type Comparison struct {
	// Alpha is the two-sided level of the test.
	Alpha float64
	// Power is the wanted chance of a significant result.
	Power float64
	// With Exact the test is Fisher's, which the continuity correction stands for; without, it is the uncorrected chi-squared
	// test, which promises more than Fisher's keeps.
	Exact bool
}

// UsualComparison is Fisher's test at 5 % two-sided with a power of 80 %.
func UsualComparison() Comparison { return Comparison{Alpha: 0.05, Power: 0.80, Exact: true} }

// Detectable holds the rates nearest to a reference rate that a comparison would tell from it with the wanted power.
type Detectable struct {
	// Above is the lowest such rate above the reference, Below the highest below it.
	Above, Below float64
	// HasAbove is false where even a rate of 1 would be missed too often, HasBelow where even a rate of 0 would.
	HasAbove, HasBelow bool
}

// check refuses levels and powers that are none. A power no larger than the level asks for nothing.
func (c Comparison) check() error {
	if !(c.Alpha > 0 && c.Alpha < 1 && c.Power > c.Alpha && c.Power < 1) {
		return fmt.Errorf("level %v and power %v: both lie between 0 and 1, the power above the level", c.Alpha, c.Power)
	}
	return nil
}

// TwoRatePower is the chance that the comparison finds a difference when the true rates of two groups of n1 and n2 units
// are p1 and p2.
//
//	power = Phi( (|p1-p2| - h - z sqrt(p (1-p) (1/n1 + 1/n2))) / sqrt(p1 (1-p1)/n1 + p2 (1-p2)/n2) )
//	    p = (n1 p1 + n2 p2) / (n1 + n2),  z the two-sided deviate of Alpha,  h = (1/n1 + 1/n2)/2 if Exact, else 0
//
// Source: Fleiss, Levin & Paik (2003) Statistical Methods for Rates and Proportions, 3rd ed., section 4.2-4.4; h after
// Casagrande, Pike & Smith (1978) Biometrics 34:483-486. A normal approximation: rough where fewer than about five hits
// are expected.
//
// Input: rates from 0 to 1, sizes 1 or more. The chance of finding the opposite difference is not counted, so that equal
// rates give at most Alpha/2. Rates 0 and 1 are told apart with power 1 if the groups are large enough to say so at all.
// Anything else is an error.
func TwoRatePower(p1, p2 float64, n1, n2 int64, c Comparison) (float64, error) {
	for _, p := range []float64{p1, p2} {
		if err := checkProbability("rate", p); err != nil {
			return 0, fmt.Errorf("power of two rates: %w", err)
		}
	}
	if err := checkSizes(n1, n2, c); err != nil {
		return 0, fmt.Errorf("power of two rates: %w", err)
	}
	return twoRatePower(p1, p2, n1, n2, c), nil
}

// twoRatePower is TwoRatePower for input already checked.
func twoRatePower(p1, p2 float64, n1, n2 int64, c Comparison) float64 {
	f1, f2 := float64(n1), float64(n2)
	correction := 0.0
	if c.Exact {
		correction = (1/f1 + 1/f2) / 2
	}
	pooled := (float64(f1*p1) + float64(f2*p2)) / (f1 + f2)
	needed := float64(normalQuantile(1-c.Alpha/2) * math.Sqrt(float64(pooled*(1-pooled))*(1/f1+1/f2)))
	excess := math.Abs(p1-p2) - correction - needed
	spread := math.Sqrt(float64(p1*(1-p1))/f1 + float64(p2*(1-p2))/f2)
	if spread == 0 {
		if excess > 0 {
			return 1
		}
		return 0
	}
	return normalBelow(excess / spread)
}

// DetectableRates gives the smallest difference that groups of this size could show: the nearest rates of a group of n1
// units that the comparison would tell from the rate reference of a group of n2 units. It solves TwoRatePower for p1.
//
// Input and errors as for TwoRatePower.
func DetectableRates(reference float64, n1, n2 int64, c Comparison) (Detectable, error) {
	if err := checkProbability("reference rate", reference); err != nil {
		return Detectable{}, fmt.Errorf("detectable rates: %w", err)
	}
	if err := checkSizes(n1, n2, c); err != nil {
		return Detectable{}, fmt.Errorf("detectable rates: %w", err)
	}
	var found Detectable
	found.Above, found.HasAbove = detectable(reference, 1, n1, n2, c)
	found.Below, found.HasBelow = detectable(reference, 0, n1, n2, c)
	return found, nil
}

// detectable looks for the rate with the wanted power between reference and end. The power grows with the difference.
func detectable(reference, end float64, n1, n2 int64, c Comparison) (float64, bool) {
	missing := func(share float64) float64 {
		rate := reference + float64(share*(end-reference))
		return c.Power - twoRatePower(rate, reference, n1, n2, c)
	}
	if reference == end || missing(1) > 0 {
		return 0, false
	}
	return reference + float64(root(missing, 0, 1)*(end-reference)), true
}

// checkSizes refuses groups without units and comparisons that are none.
func checkSizes(n1, n2 int64, c Comparison) error {
	if n1 < 1 || n2 < 1 || n1 > maxUnits || n2 > maxUnits {
		return fmt.Errorf("groups of %d and %d units: a group has at least one", n1, n2)
	}
	return c.check()
}
