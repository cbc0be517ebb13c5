package main

import (
	"testing"
	"time"
)

// TestReadSpan reads dates as people write them. Source of the weeks: ISO 8601-1:2019, 3.1.1.23: week 1 holds the year's
// first Thursday; the examples 2008-W01 and 2009-W53 are those of its Wikipedia article's table, from memory, and follow
// from the rule by any calendar.
func TestReadSpan(t *testing.T) {
	from := time.Date(2026, 1, 31, 15, 4, 5, 0, time.UTC) // a Saturday; the month before has as many days, February not
	for text, want := range map[string]string{
		"2026":                "2026-01-01 to 2026-12-31",
		"2026-Q3":             "2026-07-01 to 2026-09-30",
		"2026q1":              "2026-01-01 to 2026-03-31",
		"Q4 2025":             "2025-10-01 to 2025-12-31",
		"2024-02":             "2024-02-01 to 2024-02-29",
		"February 2026":       "2026-02-01 to 2026-02-28",
		"aug  2026":           "2026-08-01 to 2026-08-31",
		"2026 Aug":            "2026-08-01 to 2026-08-31",
		"2008-W01":            "2007-12-31 to 2008-01-06",
		"2009-W53":            "2009-12-28 to 2010-01-03",
		"2026W09":             "2026-02-23 to 2026-03-01",
		"2026-03-09":          "2026-03-09 to 2026-03-09",
		"2026-03-09 14:05":    "2026-03-09 14:05:00",
		"2026-03-09T14:05:30": "2026-03-09 14:05:30",
		"today":               "2026-01-31 to 2026-01-31",
		"Yesterday":           "2026-01-30 to 2026-01-30",
		"this week":           "2026-01-26 to 2026-02-01",
		"last week":           "2026-01-19 to 2026-01-25",
		"this month":          "2026-01-01 to 2026-01-31",
		"last month":          "2025-12-01 to 2025-12-31",
		"Last  Quarter":       "2025-10-01 to 2025-12-31",
		"this quarter":        "2026-01-01 to 2026-03-31",
		"last year":           "2025-01-01 to 2025-12-31",
		"this year":           "2026-01-01 to 2026-12-31",
	} {
		got, known := readSpan(text, from)
		if !known || got.String() != want {
			t.Errorf("%q is %s (%t), expected %s", text, got, known, want)
		}
	}
	for _, text := range []string{"", "3/4/2026", "31.02.2026", "2026-02-30", "2026-Q5", "Q 2026", "2025-W53", "2026-W00", "month",
		"next month", "last", "2026-13", "Augus 2026"} {
		if got, known := readSpan(text, from); known {
			t.Errorf("%q is taken for %s", text, got)
		}
	}
}

// A span ends where the next begins, to the smallest unit that the history keeps.
func TestSpansMeet(t *testing.T) {
	for _, pair := range [][2]string{{"2026-01", "2026-02"}, {"2026-Q4", "2027-Q1"}, {"2026-W53", "2027-W01"}, {"2024-02-28", "2024-02-29"}} {
		one, _ := readSpan(pair[0], time.Time{})
		next, known := readSpan(pair[1], time.Time{})
		if !known || !one.last.Add(time.Microsecond).Equal(next.first) {
			t.Errorf("%s ends at %s, %s begins at %s", pair[0], one.last, pair[1], next.first)
		}
	}
}
