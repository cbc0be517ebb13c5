package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// wordsOf maps the values that are not the layout's words already, where the trade's usage is known.
func wordsOf(column Column, values []string, items bool) string {
	seen := map[string]bool{}
	var pairs []string
	for _, value := range values {
		cells := []string{value}
		if items {
			cells = regexp.MustCompile(`[;,/]`).Split(value, -1)
		}
		for _, cell := range cells {
			plain := strings.ToLower(strings.TrimSpace(cell))
			if plain == "" || seen[plain] || slices.Contains(column.Words, plainName(plain)) {
				continue
			}
			seen[plain] = true
			if word, ok := tradeWords[column.Name][plain]; ok && slices.Contains(column.Words, word) {
				pairs = append(pairs, fmt.Sprintf("%s = %q", tomlText(strings.TrimSpace(cell)), word))
			}
		}
	}
	slices.Sort(pairs)
	return strings.Join(pairs, ", ")
}
