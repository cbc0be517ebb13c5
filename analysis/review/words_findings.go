package review

import (
	"plumbline/analysis/quality"
	"plumbline/queries"
)

// className is a finding's class for a reader.
func className(f quality.Finding) string {
	return queries.KindNamed(f.Kind).ClassTitle(textOf(f.Class))
}

// findingName is a finding's kind and class in one label.
func findingName(f quality.Finding) string {
	kind := queries.KindNamed(f.Kind).Title
	if class := className(f); class != "" {
		return kind + ": " + class
	}
	return kind
}
