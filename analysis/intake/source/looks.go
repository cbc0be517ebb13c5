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
	LooksDay    = regexp.MustCompile(LooksDate.String() + `|(?i)^(\d{1,2}[-. ]+)?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[-., ]+\d|^[34]\d{4}(\.\d+)?$`)
	LooksNumber = regexp.MustCompile(`^[+-]?[\d.,]+$`)
	LooksClock  = regexp.MustCompile(`^\d{1,2}:\d{2}`)
)

// LooksMonth is a day or month with the month as a word.
var LooksMonth = regexp.MustCompile(`(?i)^(\d{1,2}[-. ]+)?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[-., ]+\d{1,4}`)

func LooksVINSpaced(value string) bool {
	return LooksVIN.MatchString(strings.NewReplacer(" ", "", "-", "").Replace(value))
}
