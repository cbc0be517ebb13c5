package source

import (
	"regexp"
	"strings"
)

// What the cells of the trade's lists look like.
var (
	LooksVIN    = regexp.MustCompile(`(?i)^[A-HJ-NPR-Z0-9]{17}$`)
	LooksCode   = regexp.MustCompile(`(?i)\b[PCBU][0-3][0-9A-F]{3}([-: ]?[0-9A-F]{2})?\b`)
	LooksDate   = regexp.MustCompile(`^(\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[/.-] ?\d{1,2}[/.-] ?(\d{4}|\d{2}))(,?[ T].*)?$`)
	LooksDay    = regexp.MustCompile(LooksDate.String() + `|` + LooksMonth.String() + `|^[34]\d{4}(\.\d+)?$`)
	LooksNumber = regexp.MustCompile(`^[+-]?[\d.,]+$`)
	LooksClock  = regexp.MustCompile(`^\d{1,2}:\d{2}`)
)

// months are the first letters of the months' names in four languages.
const months = `(jan|ene|feb|fev|fév|mar|mär|mrz|apr|abr|avr|may|mai|jun|juin|jul|juil|aug|ago|aou|aoû|sep|oct|okt|nov|dec|déc|dic|dez)`

// LooksMonth is a day or month with the month as a word, a weekday before it or not.
var LooksMonth = regexp.MustCompile(`(?i)^(\pL{2,10}[.,]* +)?(\d{1,2}(st|nd|rd|th|er|º)?[-. ]+(de +)?)?` + months + `\pL*[-., ]+(de +|del +)?\d{1,4}`)

// LooksVINSpaced is a vehicle's number of 17 characters, blanks and hyphens aside.
func LooksVINSpaced(value string) bool {
	return LooksVIN.MatchString(strings.NewReplacer(" ", "", "-", "").Replace(value))
}
