package review

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"plumbline/analysis/quality"
)

const nbsp = "\u00a0"

// percent writes a rate from 0 to 1 for a reader: 83.0 %.
func percent(rate float64) string { return points(rate) + nbsp + "%" }

// points writes a rate as a number of percentage points, with one decimal.
func points(rate float64) string {
	return strconv.FormatFloat(math.Round(rate*1000)/10+0, 'f', 1, 64) // + 0 turns -0 into 0
}

// percentOr is percent, or a dash where there is no rate.
func percentOr(rate *float64) string {
	if rate == nil {
		return "–"
	}
	return percent(*rate)
}

// between writes a 95 % interval of rates.
func between(low, high *float64) string {
	if low == nil || high == nil {
		return "–"
	}
	return points(*low) + "–" + percent(*high)
}

// decimals writes a number with a fixed number of decimals, or a dash where there is none.
func decimals(x *float64, places int) string {
	if x == nil {
		return "–"
	}
	return strconv.FormatFloat(*x, 'f', places, 64)
}

// level writes a deviation with two decimals and a true minus sign; what rounds to nothing has none.
func level(x float64) string {
	written := strconv.FormatFloat(x, 'f', 2, 64)
	if written == "-0.00" {
		return "0.00"
	}
	return strings.Replace(written, "-", "−", 1)
}

// probability writes a p or q: small ones as a bound, for their digits say nothing.
func probability(p *float64) string {
	switch {
	case p == nil:
		return "–"
	case *p < 0.001:
		return "< 0.001"
	}
	return strconv.FormatFloat(*p, 'f', 3, 64)
}

// count writes a whole number with commas between its thousands.
func count(n int64) string {
	digits := strconv.FormatInt(n, 10)
	for i := len(digits) - 3; i > 0 && digits[i-1] != '-'; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}

// several writes a number with its noun: 1 job, 2 jobs.
func several(n int64, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return count(n) + " " + more
}

// noneOr is several, but none in a word: no job, 1 job, 2 jobs.
func noneOr(n int64, one, more string) string {
	if n == 0 {
		return "no " + one
	}
	return several(n, one, more)
}

// orNone writes a number of things named before: none, 1, 2.
func orNone(n int64) string {
	if n == 0 {
		return "none"
	}
	return count(n)
}

// isOrAre agrees with a number.
func isOrAre(n int64) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// monthName writes 2026-08 as August 2026.
func monthName(period string) string {
	t, err := time.Parse("2006-01", period)
	if err != nil {
		return period
	}
	return t.Format("January 2006")
}

// plain turns a word of the records into words: front_camera into front camera.
func plain(word string) string { return strings.ReplaceAll(word, "_", " ") }

// sentence puts a capital before words that begin a label.
func sentence(words string) string {
	if words == "" {
		return ""
	}
	first := []rune(words)[0]
	return strings.ToUpper(string(first)) + words[len(string(first)):]
}

// or gives a text, or a dash where it is missing.
// textOf is a value that may be missing; empty where it is.
func textOf(text *string) string {
	if text == nil {
		return ""
	}
	return *text
}

func or(text *string) string {
	if text == nil || *text == "" {
		return "–"
	}
	return *text
}

// sourceName is a windshield's source for a reader: the trade's abbreviations in capitals.
func sourceName(source string) string {
	if source == "oem" || source == "oee" {
		return strings.ToUpper(source)
	}
	return plain(source)
}

// outcomes in words, as the name of what a chart shows.
var outcomeNames = map[quality.Outcome]string{
	quality.NotFirstPass:  "not first pass",
	quality.Comeback:      "comebacks",
	quality.PostScanFault: "jobs with a fault left",
	quality.OpenFaults:    "open faults",
}

// what an outcome is counted in.
var outcomeUnits = map[quality.Outcome]string{
	quality.NotFirstPass:  "tasks",
	quality.Comeback:      "jobs followed for the whole window",
	quality.PostScanFault: "jobs scanned before and after",
	quality.OpenFaults:    "jobs scanned after",
}

// groupings in words.
var groupingNames = map[string]string{
	"equipment": "stand or frame", "target": "target board", "source": "glass source",
	"software_version": "software version", "hour": "hour of the day", "weekday": "day of the week",
	"brand": "glass brand", "supplier": "glass supplier",
}

func groupingName(by string) string {
	if name, ok := groupingNames[by]; ok {
		return name
	}
	return plain(by)
}

// systemOf names the system of a finding, with its position and attempt where it has them.
func systemOf(f quality.Finding) string {
	if f.System == nil {
		return "–"
	}
	name := plain(*f.System)
	if f.Position != nil {
		name = plain(*f.Position) + " " + name
	}
	if f.AttemptNo != nil {
		name += fmt.Sprintf(", attempt %d", *f.AttemptNo)
	}
	return name
}
