package quality

import (
	"slices"
	"strings"
	"time"

	"plumbline/analysis/stats"
)

// withSignals adds the trends that signal on the bad side in the month, or comebacks in their latest month that is wholly
// matured. These two signals are seldom false by themselves, and share no error with the rest.
func (s *standing) withSignals(things []Standout) ([]Standout, error) {
	for _, outcome := range TrendOutcomes {
		points, err := s.trend(outcome)
		if err != nil {
			return nil, err
		}
		if thing := signalOf(points); thing != nil {
			thing.Outcome = string(outcome)
			things = append(things, *thing)
		}
	}
	return things, nil
}

// trend is an outcome's trend up to the month to be judged, which is its last point, without months that cannot signal. It
// is empty where nothing can be judged.
func (s *standing) trend(outcome Outcome) ([]TrendPoint, error) {
	q := TrendQuery{Outcome: outcome, By: Month, Filter: s.upTo}
	points, err := Trend(s.ctx, s.h, q)
	if err != nil {
		return nil, err
	}
	usable := func(p TrendPoint) bool { return p.N > 0 && p.IsMatured() }
	last := len(points) - 1
	for ; outcome == Comeback && last >= 0 && !usable(points[last]); last-- {
	}
	if last < 0 || outcome != Comeback && points[last].Period != s.month {
		return nil, nil
	}
	q.Reported = points[last].Period
	if points, err = Trend(s.ctx, s.h, q); err != nil {
		return nil, err
	}
	return slices.DeleteFunc(points[:last+1], func(p TrendPoint) bool { return !usable(p) }), nil
}

// signalOf sums up the periods of the pattern that the last point completes; nil where it completes none on the bad side.
func signalOf(points []TrendPoint) *Standout {
	if len(points) == 0 {
		return nil
	}
	last := points[len(points)-1]
	periods := 0
	var named []string
	for _, pattern := range []struct {
		signal  stats.Signal
		periods int
	}{{stats.BeyondLimits, 1}, {stats.NineOneSide, 9}} {
		if slices.Contains(last.Signals, pattern.signal) && *last.Rate > *last.Center {
			periods, named = pattern.periods, append(named, string(pattern.signal))
		}
	}
	if periods == 0 {
		return nil
	}
	thing := &Standout{Kind: StandoutSignal, Detail: strings.Join(named, ", ")}
	for _, p := range points[len(points)-periods:] {
		thing.N += p.N
		thing.Count += p.Count
	}
	thing.Since = points[len(points)-periods].Period
	thing.Expected = float64(float64(thing.N) * *last.Center)
	return thing
}

// nameActions says of each thing what was done about its subject since, or in the twelve months, the latest.
func (s *standing) nameActions(things []Standout) error {
	if len(things) == 0 {
		return nil
	}
	actions, err := Actions(s.ctx, s.h, s.upTo)
	if err != nil {
		return err
	}
	for i := range things {
		since := *s.year.From
		if day, err := time.Parse("2006-01-02", things[i].Since); err == nil {
			since = day
		} else if month, err := time.Parse("2006-01", things[i].Since); err == nil {
			since = month
		}
		for _, a := range actions {
			if !a.TakenAt.Before(since) && a.isOn(things[i].Grouping, things[i].Group) {
				things[i].Action = a.TakenAt.Format("2006-01-02") + " " + a.What + ": " + string(a.Verdict)
			}
		}
	}
	return nil
}

// isOn reports whether the action was on a group of a grouping.
func (a Action) isOn(grouping, group string) bool {
	subject := ""
	if a.Subject != nil {
		subject = *a.Subject
	}
	switch {
	case a.SubjectKind != grouping:
		return false
	case grouping == "shop":
		return a.Shop == group
	case grouping == "supplier":
		return strings.EqualFold(subject, group)
	case grouping == "target", grouping == "software_version":
		return subject == group
	}
	return a.Shop+"/"+subject == group
}
