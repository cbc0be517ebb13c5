package check

import (
	"context"
	"fmt"
	"strings"

	"plumbline/analysis/history"
)

// definitions compares what the file carries with what this version of plumbline would lay.
func definitions(ctx context.Context, h *history.History) ([]Line, error) {
	differing, err := h.Differing(ctx)
	if err != nil {
		return nil, err
	}
	const of = "tables, macros and views" // how many changes with each version
	if len(differing) == 0 {
		return []Line{{"definitions", of, Whole, ""}}, nil
	}
	named := strings.Join(differing[:min(len(differing), mostNamed)], ", ")
	if rest := len(differing) - mostNamed; rest > 0 {
		named += fmt.Sprintf(" and %d more", rest)
	}
	return []Line{{"definitions", of, "not today's: " + named, mendDefinitions}}, nil
}

// mostNamed is how many definitions one line names.
const mostNamed = 5
