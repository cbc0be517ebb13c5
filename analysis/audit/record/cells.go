package record

import (
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// Field writes a value as it stands in a CSV file; a missing one is empty.
func Field(value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case string:
		return Neutral(v)
	case int64:
		return strconv.FormatInt(v, 10)
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case time.Time:
		return Moment(v)
	}
	panic("audit: a query gives a value that no column can hold")
}

// Moment writes a time of the shop's wall clock; parts of a second only where there are any.
func Moment(t time.Time) string { return t.Format("2006-01-02 15:04:05.999999") }

// starters are the characters that make a spreadsheet take a text for a formula when it stands first, their full-width
// forms among them, and the apostrophe, so that what neutral does can be undone.
const starters = "=+-@\t\r\n'＝＋－＠"

// Neutral puts an apostrophe before a text that a spreadsheet could run as a formula. Taking one leading apostrophe off
// gives the text back.
func Neutral(text string) string {
	if text == "" {
		return text
	}
	first, _ := utf8.DecodeRuneInString(text)
	if strings.ContainsRune(starters, first) {
		return "'" + text
	}
	return text
}

// Restored undoes neutral.
func Restored(text string) string { return strings.TrimPrefix(text, "'") }

// MomentOrNone writes a bound of a period; none is empty.
func MomentOrNone(t *time.Time) string {
	if t == nil {
		return ""
	}
	return Moment(*t)
}
