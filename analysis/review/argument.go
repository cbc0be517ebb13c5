package review

import (
	"regexp"
	"strings"
)

var plainArgument = regexp.MustCompile(`^[A-Za-z0-9_./:@%+=-]+$`)

// argument writes a value as a shell takes it whole, so that a command can be copied from the page.
func argument(value string) string {
	if plainArgument.MatchString(value) {
		return value
	}
	return "'" + strings.ReplaceAll(value, "'", `'\''`) + "'"
}
