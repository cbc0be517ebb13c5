package review

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

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

func reviewOf(t *rapid.T, points []quality.TrendPoint) Review {
	last := points[len(points)-1]
	r := Review{About: About{Month: last.Period, Scope: quality.Scope{WindowDays: 90}}}
	inMonth := func(p quality.TrendPoint) bool { return p.Period == last.Period }
	figure, err := readFigure("first_pass", points, inMonth, quality.TrendPoint.Complement)
	if err != nil {
		t.Fatal(err)
	}
	r.Figures = []Figure{figure}
	return r
}

// The month is called better or worse than usual only with a signal, and than the month before only where the interval
// of the difference leaves out zero, and then in the right direction.
func TestBetterAndWorseNeedEvidence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := drawTrend(t, false)
		r := reviewOf(t, points)
		said, err := firstPassSentence(r)
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
		comparesWithBefore(t, r, said)
	})
}

// comparesWithBefore works the difference out anew.
func comparesWithBefore(t *rapid.T, r Review, said string) {
	figure := r.Figures[0]
	isBetter, isWorse := strings.Contains(said, "better than in "), strings.Contains(said, "worse than in ")
	if figure.Before == nil || figure.Before.N == 0 || figure.Now.N == 0 {
		if isBetter || isWorse {
			t.Errorf("%q with nothing to compare", said)
		}
		return
	}
	difference, err := stats.NewcombeDifference(stats.Proportion{Count: figure.Now.Count, N: figure.Now.N},
		stats.Proportion{Count: figure.Before.Count, N: figure.Before.N}, stats.Level95)
	if err != nil {
		t.Fatal(err)
	}
	if isBetter != (difference.Interval.Low > 0) || isWorse != (difference.Interval.High < 0) {
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
		title := trendTitle(points, "The rate")
		for i := max(0, lastFollowed(points)+1); i < len(points); i++ {
			if strings.Contains(title, monthName(points[i].Period)) {
				t.Errorf("%q speaks of a month that cannot be judged", title)
			}
		}
	})
}

// A rate never stands without its n: every sentence that has a percentage also counts what it is of.
func TestSentencesCarryTheirNumbers(t *testing.T) {
	r := mustReview(t)
	said, err := monthSentences(r)
	if err != nil {
		t.Fatal(err)
	}
	if len(said) != 3 {
		t.Fatalf("%d sentences, expected three: %q", len(said), said)
	}
	for _, sentence := range said {
		if strings.Contains(sentence, "%") && !strings.Contains(sentence, " of ") {
			t.Errorf("a rate without its n: %q", sentence)
		}
		if strings.Count(sentence, "%") > 0 && !strings.Contains(sentence, "interval") {
			t.Errorf("a rate without its uncertainty: %q", sentence)
		}
	}
}
