package draft

import (
	"strconv"
	"strings"
)

// mostDistinct is how many different texts of a column are kept; a column of words has fewer.
const mostDistinct = 400

// A column is what a look at all of a column shows.
type column struct {
	name     string
	filled   int64 // cells with text
	texts    []string
	counts   map[string]int64 // of the first different texts, as written
	isMany   bool             // there are more different texts than were kept
	dayFirst int64            // days that only a day before the month makes possible …
	dayLater int64            // … and only a month before the day
	example  [2]string        // one of each
	slashed  int64            // days with the year last
	zulu     int64            // moments in UTC …
	offsets  map[string]int64 // … and with another offset
	comma    int64            // numbers whose comma can only be the decimal mark …
	point    int64            // … and whose point can only be
	either   int64            // numbers whose one mark might part thousands
	spaced   string           // a mark other than these two that parts thousands
}

func newColumn(name string) *column {
	return &column{name: name, counts: map[string]int64{}, offsets: map[string]int64{}}
}

// add takes a cell.
func (c *column) add(text string) {
	text = strings.TrimSpace(text)
	if text == "" {
		return
	}
	c.filled++
	if count, known := c.counts[text]; known {
		c.counts[text] = count + 1
	} else if len(c.texts) < mostDistinct {
		c.texts = append(c.texts, text)
		c.counts[text] = 1
	} else {
		c.isMany = true
	}
	if len(text) <= 40 && strings.ContainsAny(text, "0123456789") {
		c.weighDay(text)
		c.weighNumber(text)
	}
}

// weighDay looks at a day with the year last for which of the two numbers before it can be a month, and at a moment with an
// offset.
func (c *column) weighDay(text string) {
	one, rest, mark := leadingNumber(text)
	other, behind, second := leadingNumber(rest)
	switch {
	case one < 0 || other < 0 || mark == 0 || second == 0 || mark == ',' || mark == ':':
	case one > 31: // the year first
		c.weighOffset(text)
	case mark == second || second == '.' || second == '/' || second == '-':
		if year, _, _ := leadingNumber(strings.TrimSpace(behind)); year < 0 {
			return
		}
		c.slashed++
		if one > 12 && other <= 12 {
			c.dayFirst, c.example[0] = c.dayFirst+1, text
		}
		if other > 12 && one <= 12 {
			c.dayLater, c.example[1] = c.dayLater+1, text
		}
	}
}

func (c *column) weighOffset(text string) {
	at := strings.IndexByte(text, ':')
	if at < 0 || len(text) < 17 {
		return
	}
	switch tail := text[at:]; {
	case strings.HasSuffix(text, "Z") || strings.HasSuffix(text, "z"):
		c.zulu++
	case strings.ContainsAny(tail, "+-"):
		c.offsets[tail[strings.IndexAny(tail, "+-"):]]++
	}
}

// leadingNumber takes the number, of up to four digits, that a text begins with, and the mark behind it.
func leadingNumber(text string) (number int, rest string, mark byte) {
	digits := 0
	for digits < len(text) && text[digits] >= '0' && text[digits] <= '9' {
		digits++
	}
	if digits == 0 || digits > 4 {
		return -1, "", 0
	}
	number, _ = strconv.Atoi(text[:digits])
	if digits == len(text) {
		return number, "", 0
	}
	return number, text[digits+1:], text[digits]
}

// weighNumber looks for what a comma and a point in a number can be.
func (c *column) weighNumber(text string) {
	number := strings.TrimLeft(text, "+-")
	end := 0
	for end < len(number) && strings.ContainsRune("0123456789.,'\u00a0\u202f’ ", rune(number[end])) || end < len(number) && number[end] >= 0x80 {
		end++
	}
	number = strings.TrimSpace(number[:end])
	if len(number) == 0 || number[0] < '0' || number[0] > '9' {
		return
	}
	for _, mark := range []string{"'", "’", "\u00a0", "\u202f", " "} {
		if whole, after, ok := strings.Cut(number, mark); ok && len(whole) <= 3 && len(after) >= 3 && isDigits(after[:3]) && (len(after) == 3 || !isDigits(after[3:4])) {
			c.spaced = mark
			number = strings.ReplaceAll(number, mark, "")
		}
	}
	last := strings.LastIndexAny(number, ".,")
	if last < 0 || strings.ContainsAny(number, " ") {
		return
	}
	mark, behind, before := number[last], number[last+1:], number[:last]
	other := map[byte]string{'.': ",", ',': "."}[mark]
	switch {
	case !isDigits(behind):
	case strings.Count(number, string(mark)) > 1: // it parts thousands, so the other is the decimal mark
		if !strings.Contains(before, other) && len(behind) == 3 {
			c.votes(other[0], 1)
		}
	case strings.Contains(before, other), len(behind) != 3, len(before) > 3, before == "0":
		c.votes(mark, 1)
	default:
		c.either++
	}
}

func (c *column) votes(mark byte, count int64) {
	if mark == ',' {
		c.comma += count
	} else {
		c.point += count
	}
}

func isDigits(text string) bool {
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return len(text) > 0
}
