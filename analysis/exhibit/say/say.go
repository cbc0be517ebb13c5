// Package say puts numbers and moments into words for a reader, one way each, wherever they stand.
package say

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// NBSP holds a number and its unit together.
const NBSP = "\u00a0"

// None stands where there is no figure.
const None = "–"

// Percent writes a rate from 0 to 1 for a reader: 83.0 %.
func Percent(rate float64) string { return Points(rate) + NBSP + "%" }

// Points writes a rate as a number of percentage points, with one decimal.
func Points(rate float64) string {
	return strconv.FormatFloat(math.Round(rate*1000)/10+0, 'f', 1, 64) // + 0 turns -0 into 0
}

// PercentOr is Percent, or a dash where there is no rate.
func PercentOr(rate *float64) string {
	if rate == nil {
		return None
	}
	return Percent(*rate)
}

// Between writes an interval of rates.
func Between(low, high *float64) string {
	if low == nil || high == nil {
		return None
	}
	return Points(*low) + None + Percent(*high)
}

// Signed writes a difference of rates in points, with its sign.
func Signed(d float64) string {
	if written := Points(d); strings.HasPrefix(written, "-") {
		return "−" + written[1:]
	} else if written != "0.0" {
		return "+" + written
	}
	return "0.0"
}

// OutOf writes a rate with what it rests on: 12.5 % (5 of 40).
func OutOf(count, n int64) string {
	if n == 0 {
		return None
	}
	return fmt.Sprintf("%s (%s of %s)", Percent(float64(count)/float64(n)), Count(count), Count(n))
}

// Decimals writes a number with a fixed number of decimals, or a dash where there is none.
func Decimals(x *float64, places int) string {
	if x == nil {
		return None
	}
	return Number(*x, places)
}

// Number writes a number with a fixed number of decimals and a true minus sign; what rounds to nothing has none.
func Number(x float64, places int) string {
	written := strconv.FormatFloat(x, 'f', places, 64)
	if rest, negative := strings.CutPrefix(written, "-"); negative {
		if strings.Trim(rest, "0.") == "" {
			return rest
		}
		return "−" + rest
	}
	return written
}

// Probability writes a p or q: small ones as a bound, for their digits say nothing.
func Probability(p *float64) string {
	switch {
	case p == nil:
		return None
	case *p < 0.001:
		return "< 0.001"
	}
	return strconv.FormatFloat(*p, 'f', 3, 64)
}

// Count writes a whole number with commas between its thousands.
func Count(n int64) string {
	digits := strconv.FormatInt(n, 10)
	for i := len(digits) - 3; i > 0 && digits[i-1] != '-'; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}

// Several writes a number with its noun: 1 job, 2 jobs.
func Several(n int64, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return Count(n) + " " + more
}

// NoneOr is Several, but none in a word: no job, 1 job, 2 jobs.
func NoneOr(n int64, one, more string) string {
	if n == 0 {
		return "no " + one
	}
	return Several(n, one, more)
}

// OrNone writes a number of things named before: none, 1, 2.
func OrNone(n int64) string {
	if n == 0 {
		return "none"
	}
	return Count(n)
}

// One picks the word that agrees with a number.
func One(n int64, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

// Month writes 2026-08 as August 2026; what is no month stays as it is.
func Month(period string) string {
	t, err := time.Parse("2006-01", period)
	if err != nil {
		return period
	}
	return t.Format("January 2006")
}

// Day writes a day in words.
func Day(t time.Time) string { return t.Format("2 January 2006") }

// Moment writes a time as the shop's wall clock showed it; empty where there is none.
func Moment(t *time.Time) string {
	if t == nil {
		return ""
	}
	return t.Format("2006-01-02 15:04")
}

// Clock writes a moment in words.
func Clock(t *time.Time) string {
	if t == nil {
		return None
	}
	return t.Format("2 January 2006, 15:04")
}

// Plain turns a word of the records into words: front_camera into front camera.
func Plain(word string) string { return strings.ReplaceAll(word, "_", " ") }

// Sentence puts a capital before words that begin a label.
func Sentence(words string) string {
	if words == "" {
		return ""
	}
	first := []rune(words)[0]
	return strings.ToUpper(string(first)) + words[len(string(first)):]
}

// Few names at most so many things, and how many more there are.
func Few(names []string, most int) string {
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return strings.Join(names, ", ")
}

// And joins names as a sentence does: a, b and c.
func And(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}
