package answer

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// drawTrend draws a trend of some months as quality.Trend makes it, some of the last perhaps not followed.
func drawTrend(t *rapid.T, hold bool) []quality.TrendPoint {
	months := rapid.IntRange(1, 20).Draw(t, "months")
	unfollowed := 0
	if hold {
		unfollowed = rapid.IntRange(0, min(3, months)).Draw(t, "unfollowed")
	}
	periods := make([]stats.Period, months)
	for i := range periods {
		n := rapid.Int64Range(0, 300).Draw(t, "n")
		usable := i < months-unfollowed
		periods[i] = stats.Period{N: n, Count: rapid.Int64Range(0, n).Draw(t, "count"), Usable: usable,
			InBaseline: usable && i < months-1}
	}
	chart, err := stats.PChart(periods)
	if err != nil {
		t.Fatal(err)
	}
	points := make([]quality.TrendPoint, months)
	for i, period := range periods {
		drawn := chart.Points[i]
		starts := time.Date(2025, time.Month(1+i), 1, 0, 0, 0, 0, time.UTC)
		points[i] = quality.TrendPoint{Period: starts.Format("2006-01"), Starts: starts, N: period.N, Count: period.Count,
			Units: period.N, InBaseline: period.InBaseline, Signals: drawn.Signals}
		if !period.Usable {
			points[i].Units++
		}
		if drawn.Defined {
			points[i].Rate, points[i].Lower, points[i].Upper = &drawn.Rate, &drawn.Lower, &drawn.Upper
		}
		if chart.Defined {
			points[i].Center = &chart.Center
		}
	}
	return points
}

// monthOf is a month whose first pass is the last of some points.
func monthOf(t *rapid.T, points []quality.TrendPoint) Month {
	last := points[len(points)-1]
	figure := Figure{Name: "first_pass", Points: points}
	var err error
	if figure.Now, err = last.Complement(); err != nil {
		t.Fatal(err)
	}
	if len(points) > 1 {
		before, err := points[len(points)-2].Complement()
		if err != nil {
			t.Fatal(err)
		}
		figure.Before = &before
	}
	return Month{About: About{Month: last.Period, Scope: quality.Scope{WindowDays: 90}}, Figures: Figures{figure}}
}

// The month is called better or worse than usual only with a signal, and its change can be chance unless the interval of
// the difference leaves out zero.
func TestBetterAndWorseNeedEvidence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := drawTrend(t, false)
		m := monthOf(t, points)
		said, err := m.firstPass()
		if err != nil {
			t.Fatal(err)
		}
		place := len(points) - 1
		now, judged := points[place], judge(points, place)
		for call, word := range map[judgement]string{better: "which is better than the usual", worse: "which is worse than the usual"} {
			if hasBaseline(points) && now.N > 0 && strings.Contains(said, word) != (judged == call) {
				t.Errorf("%q, but the signals are %v at rate %v with centre %v", said, now.Signals, *now.Rate, *now.Center)
			}
		}
		if strings.Contains(said, "than the usual") && len(now.Signals) == 0 {
			t.Errorf("%q without a signal", said)
		}
		comparesWithBefore(t, m, said)
	})
}

// comparesWithBefore works the difference out anew.
func comparesWithBefore(t *rapid.T, m Month, said string) {
	figure := m.Figures[0]
	told, chance := strings.Contains(said, "; against "), strings.Contains(said, "can be chance")
	if figure.Before == nil || figure.Before.N == 0 || figure.Now.N == 0 {
		if told || chance {
			t.Errorf("%q with nothing to compare", said)
		}
		return
	}
	difference, err := stats.NewcombeDifference(stats.Proportion{Count: figure.Now.Count, N: figure.Now.N},
		stats.Proportion{Count: figure.Before.Count, N: figure.Before.N}, stats.Level95)
	if err != nil {
		t.Fatal(err)
	}
	if apart := difference.Interval.Low > 0 || difference.Interval.High < 0; told != apart || chance == apart {
		t.Errorf("%q, but the interval is %v", said, difference.Interval)
	}
}

// A month that has not been followed for the whole window is never called, whatever its numbers.
func TestUnfollowedMonthsAreNotCalled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := drawTrend(t, true)
		for i, p := range points {
			if p.N != p.Units && judge(points, i) != unjudged {
				t.Errorf("%s has %d of %d followed and is called", p.Period, p.N, p.Units)
			}
		}
		title := Trend{quality.Comeback, points}.title(trendWords[quality.Comeback])
		for i := max(0, lastFollowed(points)+1); i < len(points); i++ {
			if strings.Contains(title, say.Month(points[i].Period)) {
				t.Errorf("%q speaks of a month that cannot be judged", title)
			}
		}
	})
}
