package answer

import (
	"strings"

	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// A judgement is what a control chart allows to be said of a period.
type judgement int

const (
	unjudged judgement = iota // no units, or not followed long enough
	usual                     // nothing that chance would not give
	better
	worse
	mixed // signals that point both ways
)

// judge reads the signals of the point at place i.
func judge(points []quality.TrendPoint, i int) judgement {
	p := points[i]
	if p.N == 0 || !p.IsMatured() || p.Rate == nil || p.Center == nil {
		return unjudged
	}
	result := usual
	for _, signal := range p.Signals {
		side := better
		if rises(points, i, signal) {
			side = worse
		}
		switch result {
		case usual, side:
			result = side
		default:
			return mixed
		}
	}
	return result
}

// rises tells which way a signal points: a run of six goes by its last step, all others by the side of the centre.
func rises(points []quality.TrendPoint, i int, signal stats.Signal) bool {
	if signal == stats.SixTrending {
		for before := i - 1; before >= 0; before-- {
			if points[before].N > 0 && points[before].IsMatured() {
				return *points[i].Rate > *points[before].Rate
			}
		}
	}
	return *points[i].Rate > *points[i].Center
}

// signalWords says what a signal saw.
func signalWords(signal stats.Signal, rising bool, periods string) string {
	side, way, limit := "below", "falling", "lower"
	if rising {
		side, way, limit = "above", "rising", "upper"
	}
	switch signal {
	case stats.BeyondLimits:
		return "beyond the " + limit + " control limit"
	case stats.NineOneSide:
		return "nine " + periods + " in a row " + side + " the centre"
	case stats.SixTrending:
		return "six " + periods + " in a row " + way
	case stats.TwoOfThree:
		return "two of three " + periods + " far " + side + " the centre, more than two sigma"
	case stats.FourOfFive:
		return "four of five " + periods + " " + side + " the centre by more than one sigma"
	}
	return say.Plain(string(signal))
}

// periodsOf is what periods like one of a trend are called: 2026-W12 is a week, 2026-Q1 a quarter, 2026-03 a month.
func periodsOf(period string) string {
	switch {
	case strings.Contains(period, "W"):
		return "weeks"
	case strings.Contains(period, "Q"):
		return "quarters"
	}
	return "months"
}

// signalsOf puts all signals of a point into words.
func signalsOf(points []quality.TrendPoint, i int) string {
	words := make([]string, len(points[i].Signals))
	for k, signal := range points[i].Signals {
		words[k] = signalWords(signal, rises(points, i, signal), periodsOf(points[i].Period))
	}
	return strings.Join(words, "; ")
}

// placeOf finds a period among the points; -1 where it is not there.
func placeOf(points []quality.TrendPoint, period string) int {
	for i, p := range points {
		if p.Period == period {
			return i
		}
	}
	return -1
}

// lastFollowed finds the latest period that has units and is wholly matured; -1 where there is none.
func lastFollowed(points []quality.TrendPoint) int {
	for i := len(points) - 1; i >= 0; i-- {
		if points[i].N > 0 && points[i].IsMatured() {
			return i
		}
	}
	return -1
}

// hasBaseline reports whether any period with units sets the usual.
func hasBaseline(points []quality.TrendPoint) bool {
	for _, p := range points {
		if p.InBaseline && p.N > 0 {
			return true
		}
	}
	return false
}
