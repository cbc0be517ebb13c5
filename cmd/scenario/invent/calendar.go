package invent

import "time"

// The first morning and the last evening of the default history.
var (
	From  = time.Date(2024, 10, 1, 7, 30, 0, 0, time.UTC)
	Until = time.Date(2026, 9, 30, 17, 30, 0, 0, time.UTC)
)

func day(year int, month time.Month, of int) time.Time {
	return time.Date(year, month, of, 0, 0, 0, 0, time.UTC)
}

func days(n int) time.Duration { return time.Duration(n) * 24 * time.Hour }

func midnight(t time.Time) time.Time { return day(t.Year(), t.Month(), t.Day()) }

// onMinute rounds up, as people do who write a time down afterwards.
func onMinute(t time.Time) time.Time { return t.Add(59 * time.Second).Truncate(time.Minute) }

// calendar is when a shop works: Monday to Friday, some also on Saturday
// morning, nobody from 24 December to 1 January.
type calendar struct{ saturdays bool }

// hours tells when the shop opens and closes on the day of t, and whether it
// opens at all.
func (c calendar) hours(t time.Time) (opens, closes time.Time, open bool) {
	start := midnight(t)
	if (t.Month() == time.December && t.Day() >= 24) || (t.Month() == time.January && t.Day() == 1) {
		return start, start, false
	}
	switch t.Weekday() {
	case time.Sunday:
		return start, start, false
	case time.Saturday:
		return start.Add(8 * time.Hour), start.Add(13 * time.Hour), c.saturdays
	default:
		return start.Add(7*time.Hour + 30*time.Minute), start.Add(17*time.Hour + 30*time.Minute), true
	}
}

// fit returns the first moment at or after t from which need passes within
// one day's hours. No piece of work is longer than a Saturday morning.
func (c calendar) fit(t time.Time, need time.Duration) time.Time {
	for {
		opens, closes, open := c.hours(t)
		if t.Before(opens) {
			t = opens
		}
		if open && !t.Add(need).After(closes) {
			return t
		}
		t = midnight(t).Add(days(1))
	}
}

// workday returns the morning of the first full working day at or after t.
func (c calendar) workday(t time.Time) time.Time {
	for {
		if opens, _, open := c.hours(t); open && t.Weekday() != time.Saturday {
			return opens
		}
		t = midnight(t).Add(days(1))
	}
}
