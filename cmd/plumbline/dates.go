package main

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// howDates says how a date may be written.
const howDates = "2026, 2026-Q3, 2026-03, 2026-W09, 2026-03-09, 2026-03-09 14:05, August 2026, or last month"

// dateForms are the ways to write a moment or a span of time on the command line, with the end of what each names; a
// moment has none.
var dateForms = []struct {
	layout string
	next   func(time.Time) time.Time
}{
	{"2006-01-02 15:04:05.999999", nil}, {"2006-01-02T15:04:05.999999", nil},
	{"2006-01-02 15:04", nil}, {"2006-01-02T15:04", nil},
	{"2006-01-02", nextDay}, {"2006-01", nextMonth}, {"2006", nextYear},
	{"January 2006", nextMonth}, {"Jan 2006", nextMonth}, {"2006 January", nextMonth}, {"2006 Jan", nextMonth},
}

func nextDay(t time.Time) time.Time     { return t.AddDate(0, 0, 1) }
func nextWeek(t time.Time) time.Time    { return t.AddDate(0, 0, 7) }
func nextMonth(t time.Time) time.Time   { return t.AddDate(0, 1, 0) }
func nextQuarter(t time.Time) time.Time { return t.AddDate(0, 3, 0) }
func nextYear(t time.Time) time.Time    { return t.AddDate(1, 0, 0) }

// A span is what a date on the command line names: from first up to and including last, which are one for a moment.
type span struct{ first, last time.Time }

func spanOf(first time.Time, next func(time.Time) time.Time) span {
	return span{first, next(first).Add(-time.Microsecond)}
}

// readSpan reads a date; words such as "last month" are counted from the moment given.
func readSpan(text string, from time.Time) (span, bool) {
	text = strings.Join(strings.Fields(text), " ")
	for _, form := range dateForms {
		if t, err := time.Parse(form.layout, text); err == nil {
			if form.next == nil {
				return span{t, t}, true
			}
			return spanOf(t, form.next), true
		}
	}
	if first, next := namedPeriod(text); next != nil {
		return spanOf(first, next), true
	}
	if isRelative(text) {
		return relative(strings.ToLower(text), from), true
	}
	return span{}, false
}

var (
	quarterForm = regexp.MustCompile(`(?i)^(\d{4})[- ]?Q([1-4])$|^Q([1-4])[- ](\d{4})$`)
	weekForm    = regexp.MustCompile(`(?i)^(\d{4})-?W(\d\d)$`) // ISO 8601-1:2019, 5.2.3
)

// namedPeriod reads a quarter or an ISO week.
func namedPeriod(text string) (time.Time, func(time.Time) time.Time) {
	if m := quarterForm.FindStringSubmatch(text); m != nil {
		year, _ := strconv.Atoi(m[1] + m[4])
		quarter, _ := strconv.Atoi(m[2] + m[3])
		return time.Date(year, time.Month(quarter*3-2), 1, 0, 0, 0, 0, time.UTC), nextQuarter
	}
	if m := weekForm.FindStringSubmatch(text); m != nil {
		year, _ := strconv.Atoi(m[1])
		week, _ := strconv.Atoi(m[2])
		first := weekBegin(time.Date(year, 1, 4, 0, 0, 0, 0, time.UTC)).AddDate(0, 0, 7*(week-1)) // 4 January is in week 1
		if y, w := first.ISOWeek(); y == year && w == week {
			return first, nextWeek
		}
	}
	return time.Time{}, nil
}

// weekBegin is the Monday of a day's week.
func weekBegin(day time.Time) time.Time { return day.AddDate(0, 0, -(int(day.Weekday())+6)%7) }

var relativeForm = regexp.MustCompile(`(?i)^(today|yesterday|(this|last) (week|month|quarter|year))$`)

func isRelative(text string) bool { return relativeForm.MatchString(text) }

// relative is the calendar's day, week, month, quarter or year around the moment, or the one before it.
func relative(text string, from time.Time) span {
	today := time.Date(from.Year(), from.Month(), from.Day(), 0, 0, 0, 0, time.UTC)
	which, unit, _ := strings.Cut(text, " ")
	back := 0
	if which == "last" || which == "yesterday" {
		back = -1
	}
	switch unit {
	case "week":
		return spanOf(weekBegin(today).AddDate(0, 0, 7*back), nextWeek)
	case "month":
		return spanOf(time.Date(today.Year(), today.Month(), 1, 0, 0, 0, 0, time.UTC).AddDate(0, back, 0), nextMonth)
	case "quarter":
		begin := (today.Month()-1)/3*3 + 1
		return spanOf(time.Date(today.Year(), begin, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 3*back, 0), nextQuarter)
	case "year":
		return spanOf(time.Date(today.Year()+back, 1, 1, 0, 0, 0, 0, time.UTC), nextYear)
	}
	return spanOf(today.AddDate(0, 0, back), nextDay)
}

// isMonth tells a span that is one calendar month.
func (s span) isMonth() bool { return s == spanOf(s.first, nextMonth) && s.first.Day() == 1 }

// String says which days or moment it is.
func (s span) String() string {
	if s.first == s.last {
		return s.first.Format(timeLayout)
	}
	return fmt.Sprintf("%s to %s", s.first.Format(time.DateOnly), s.last.Format(time.DateOnly))
}
