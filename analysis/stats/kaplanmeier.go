package stats

import (
	"fmt"
	"math"
	"sort"
)

// Survival is how long one unit was followed, in days from 0, and whether the event ended it. Without the event the unit
// is censored: all that is known is that it had none up to then.
type Survival struct {
	Days  float64
	Event bool
}

// CurveStep is a day on which at least one event happened.
type CurveStep struct {
	Day float64
	// AtRisk units had been followed up to the day; those censored on it are among them.
	AtRisk int64
	Events int64
	// Survival is the estimated share of units still without the event after the day.
	Survival float64
	// StdErr and Interval are those of Survival. Where Survival is 0 they are not defined and HasInterval is false.
	StdErr      float64
	Interval    Interval
	HasInterval bool
}

// Curve is an estimated survival curve of N units: 1 up to the first step, and constant between steps.
type Curve struct {
	N      int64
	Events int64
	Steps  []CurveStep
}

// KaplanMeier estimates the share of units still without the event as time passes.
//
//	S(t) = product over event days up to t of (1 - d/n)
//	se(t) = S(t) sqrt(sum of d / (n (n-d)))
//	interval = S(t) ^ exp(-+ z se(t) / (S(t) log S(t)))
//
// with d events among n at risk on a day.
//
// Source: Kaplan & Meier (1958) J. Am. Stat. Assoc. 53:457-481; variance Greenwood (1926), Reports on Public Health 33;
// log-log interval Kalbfleisch & Prentice (1980) The Statistical Analysis of Failure Time Data, section 1.3.
//
// Input: one entry a unit, in any order; level between 0 and 1. On equal days events come before censoring. No units give
// a curve without steps. Days below 0 or not finite are an error.
func KaplanMeier(units []Survival, level float64) (Curve, error) {
	if err := checkLevel(level); err != nil {
		return Curve{}, fmt.Errorf("kaplan-meier: %w", err)
	}
	if err := checkSurvival(units); err != nil {
		return Curve{}, fmt.Errorf("kaplan-meier: %w", err)
	}
	curve := Curve{N: int64(len(units))}
	z := twoSidedDeviate(level)
	survival, sum := 1.0, 0.0
	for _, day := range eventDays(units) {
		atRisk, events := day.atRisk[0], day.events[0]
		n, d := float64(atRisk), float64(events)
		curve.Events += events
		survival *= (n - d) / n
		step := CurveStep{Day: day.day, AtRisk: atRisk, Events: events, Survival: survival}
		if events < atRisk {
			sum += d / float64(n*(n-d))
			step.StdErr = float64(survival * math.Sqrt(sum))
			step.Interval = logLogInterval(survival, math.Sqrt(sum), z)
			step.HasInterval = true
		}
		curve.Steps = append(curve.Steps, step)
	}
	return curve, nil
}

// logLogInterval carries an interval of log(-log S) back to S, which keeps it within 0 to 1. relative is se/S.
func logLogInterval(survival, relative, z float64) Interval {
	spread := math.Exp(z * relative / -math.Log(survival))
	return Interval{Low: math.Pow(survival, spread), High: math.Pow(survival, 1/spread)}
}

// At is the estimated share without the event up to and including day.
func (c Curve) At(day float64) float64 {
	after := sort.Search(len(c.Steps), func(i int) bool { return c.Steps[i].Day > day })
	if after == 0 {
		return 1
	}
	return c.Steps[after-1].Survival
}

// Restrict ends every follow-up after the given number of days: what happened later counts as not yet happened. An event
// on the last day still counts. The argument is left as it is.
func Restrict(units []Survival, days float64) []Survival {
	restricted := make([]Survival, len(units))
	for i, u := range units {
		restricted[i] = u
		if u.Days > days {
			restricted[i] = Survival{Days: days}
		}
	}
	return restricted
}
