package draft

import (
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
)

// distinct lists the different values, in their order.
func distinct(values []string) []string {
	var seen []string
	for _, value := range values {
		if value = strings.TrimSpace(value); value != "" && !slices.Contains(seen, value) {
			seen = append(seen, value)
		}
	}
	return seen
}

// share says which part of the values a test holds for; 0 of none.
func share(values []string, holds func(string) bool) float64 {
	fitting := 0
	for _, value := range values {
		if holds(strings.TrimSpace(value)) {
			fitting++
		}
	}
	return float64(fitting) / float64(max(1, len(values)))
}

var listMarks = []string{";", "\n", "|", " + ", " / ", ","}

// separatorOf is the mark between the items of the cells: the first that cuts most cells.
func separatorOf(values []string) string {
	for _, mark := range listMarks {
		if share(values, func(value string) bool { return strings.Contains(value, mark) }) > 0.02 {
			return mark
		}
	}
	return ";"
}

// itemsOf cuts the cells into items.
func itemsOf(values []string, separator string) []string {
	var items []string
	for _, value := range values {
		for item := range strings.SplitSeq(value, separator) {
			if item = strings.TrimSpace(item); item != "" {
				items = append(items, item)
			}
		}
	}
	return items
}

// cutMarks are the marks at which a person would cut the values into parts: those that stand in most of them, else white
// space.
func cutMarks(values []string) string {
	if share(values, source.LooksDay.MatchString) > 0.8 {
		return " " // a day and its time
	}
	marks := ""
	for _, mark := range ":()[]|;/=@,#" {
		if share(values, func(value string) bool { return strings.ContainsRune(value, mark) }) > 0.6 {
			marks += string(mark)
		}
	}
	if marks == "" && share(values, regexp.MustCompile(`\s-\s`).MatchString) > 0.8 {
		return "-"
	}
	if marks == "" {
		return " "
	}
	return marks
}
