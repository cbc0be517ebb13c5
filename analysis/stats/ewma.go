package stats

import (
	"fmt"
	"math"
)

// EWMAPlan sets up a chart of exponentially weighted averages.
type EWMAPlan struct {
	// Target is the value wished for, and where the average starts.
	Target float64
	// Sigma is the standard deviation of one value, 0 or more; not used for rates.
	Sigma float64
	// Lambda is the weight of the latest value, above 0 and up to 1; 0.2 to 0.3 is usual.
	Lambda float64
	// Width is the distance of the limits in standard deviations of the average, above 0; 3 is usual.
	Width float64
}

// EWMAPoint is the average after one more value, with its limits. Beyond tells that it lies outside them; on a limit is
// inside. A period without units is not Defined and leaves the average as it was.
type EWMAPoint struct {
	Average float64
	Limits  Interval
	Beyond  bool
	Defined bool
}

// EWMA draws the chart of exponentially weighted moving averages, which shows small lasting shifts early.
//
//	z_t = lambda x_t + (1-lambda) z_(t-1),  z_0 = target
//	limits = target -+ width sqrt(v_t),  v_t = lambda² sigma² + (1-lambda)² v_(t-1),  v_0 = 0
//
// which tend to target -+ width sigma sqrt(lambda / (2 - lambda)).
//
// Source: Roberts (1959) Technometrics 1:239-250; Lucas & Saccucci (1990) Technometrics 32:1-12, eq. 2; NIST/SEMATECH
// e-Handbook 6.3.2.4.
//
// Input: finite values in order of time. No values give no points. A value or a plan outside its bounds is an error.
func EWMA(values []float64, plan EWMAPlan) ([]EWMAPoint, error) {
	if err := checkValues(values); err != nil {
		return nil, fmt.Errorf("ewma: %w", err)
	}
	if err := plan.check(); err != nil {
		return nil, fmt.Errorf("ewma: %w", err)
	}
	a := average{value: plan.Target, plan: plan}
	points := make([]EWMAPoint, len(values))
	for i, x := range values {
		points[i] = a.take(x, float64(plan.Sigma*plan.Sigma))
	}
	return points, nil
}

// EWMAOfRates is EWMA for the rates of periods of unequal size. The target is a rate, and the variance of a period with n
// units is target (1-target) / n. Periods without units are passed over. Limits are cut at 0 and 1.
//
// An impossible count, or a target outside 0 to 1, is an error.
func EWMAOfRates(periods []Proportion, plan EWMAPlan) ([]EWMAPoint, error) {
	if err := checkGroups(periods); err != nil {
		return nil, fmt.Errorf("ewma of rates: %w", err)
	}
	plan.Sigma = 0
	if err := plan.check(); err != nil {
		return nil, fmt.Errorf("ewma of rates: %w", err)
	}
	if err := checkProbability("target", plan.Target); err != nil {
		return nil, fmt.Errorf("ewma of rates: %w", err)
	}
	a := average{value: plan.Target, plan: plan}
	points := make([]EWMAPoint, len(periods))
	for i, p := range periods {
		if p.N == 0 {
			continue
		}
		point := a.take(p.Rate(), float64(plan.Target*(1-plan.Target))/float64(p.N))
		point.Limits = Interval{Low: math.Max(0, point.Limits.Low), High: math.Min(1, point.Limits.High)}
		points[i] = point
	}
	return points, nil
}

// average is a running average and its variance, which grows from 0 as values come in and depends on their sizes.
type average struct {
	value, variance float64
	plan            EWMAPlan
}

// take moves the average on by a value of the given variance.
func (a *average) take(x, variance float64) EWMAPoint {
	lambda, kept := a.plan.Lambda, 1-a.plan.Lambda
	a.value = float64(lambda*x) + float64(kept*a.value)
	a.variance = float64(float64(lambda*lambda)*variance) + float64(float64(kept*kept)*a.variance)
	half := float64(a.plan.Width * math.Sqrt(a.variance))
	limits := Interval{Low: a.plan.Target - half, High: a.plan.Target + half}
	return EWMAPoint{Average: a.value, Limits: limits, Beyond: !limits.Holds(a.value), Defined: true}
}

// check refuses plans outside their bounds.
func (p EWMAPlan) check() error {
	if err := checkValues([]float64{p.Target, p.Sigma, p.Width}); err != nil {
		return err
	}
	if !(p.Lambda > 0 && p.Lambda <= 1) || p.Sigma < 0 || p.Width <= 0 {
		return fmt.Errorf("weight %v, sigma %v, width %v: the weight lies above 0 and up to 1, sigma is not negative, the width is positive",
			p.Lambda, p.Sigma, p.Width)
	}
	return nil
}
