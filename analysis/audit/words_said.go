package audit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// findingLines counts findings for the cover, the gravest first.
func (b *making) findingLines() []findingLine {
	var lines []findingLine
	for kind, times := range b.kinds {
		lines = append(lines, findingLine{strings.ReplaceAll(kind.kind, "_", " "), orElse(kind.severity, "not told"), times})
	}
	rank := []string{"high", "medium", "low", "not told"}
	slices.SortFunc(lines, func(a, b findingLine) int {
		return cmp.Or(slices.Index(rank, a.Severity)-slices.Index(rank, b.Severity),
			cmp.Compare(b.Times, a.Times), cmp.Compare(a.Kind, b.Kind))
	})
	return lines
}

// percent writes a share with one decimal. A share that is not all or nothing never reads as 100 or 0.
func percent(count, n int64) string {
	if n == 0 {
		return ""
	}
	text := fmt.Sprintf("%.1f %%", 100*float64(count)/float64(n))
	switch {
	case count < n && text == "100.0 %":
		return "over 99.9 %"
	case count > 0 && text == "0.0 %":
		return "under 0.1 %"
	}
	return text
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}
