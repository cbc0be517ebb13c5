package audit

import (
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// field writes a value as it stands in a CSV file; a missing one is empty.
func field(value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case string:
		return neutral(v)
	case int64:
		return strconv.FormatInt(v, 10)
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case time.Time:
		return moment(v)
	}
	panic("audit: a query gives a value that no column can hold")
}

// moment writes a time of the shop's wall clock; parts of a second only where there are any.
func moment(t time.Time) string { return t.Format("2006-01-02 15:04:05.999999") }

// starters are the characters that make a spreadsheet take a text for a formula when it stands first, their full-width
// forms among them, and the apostrophe, so that what neutral does can be undone.
const starters = "=+-@\t\r\n'＝＋－＠"

// neutral puts an apostrophe before a text that a spreadsheet could run as a formula. Taking one leading apostrophe off
// gives the text back.
func neutral(text string) string {
	if text == "" {
		return text
	}
	first, _ := utf8.DecodeRuneInString(text)
	if strings.ContainsRune(starters, first) {
		return "'" + text
	}
	return text
}

// restored undoes neutral.
func restored(text string) string { return strings.TrimPrefix(text, "'") }
