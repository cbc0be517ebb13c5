package profile_test

import (
	"strings"
	"testing"

	"plumbline/analysis/intake/draft"
	"plumbline/analysis/intake/profile"
)

// The examples of the guide are profiles that can be read, and together they show every setting of the language.
func TestExamplesOfTheGuide(t *testing.T) {
	examples := profilesIn(draft.Language)
	if len(examples) != 4 {
		t.Fatalf("%d examples", len(examples))
	}
	for _, example := range examples {
		if _, err := profile.Parse("guide.toml", []byte(example)); err != nil {
			t.Errorf("%v\n%s", err, example)
		}
	}
	for _, setting := range []string{"sheet", "sheets", "header_row", "header_rows", "date_order", "date_serials", "zone", "decimal", "thousands", "fill_down", "ditto",
		"cut", "members", "skip", "is", "contains", "matches", "rows", "when", "unless", "one_by", "each", "separator", "separator_matches", "only", "except",
		"either", "constant", "item", "extract", "drop", "words", "otherwise", "unit", "number", "column", "kind", "fields"} {
		if !strings.Contains(draft.Language, setting) {
			t.Errorf("the guide does not speak of %s", setting)
		}
	}
}

// profilesIn gives the examples: lines that are set in, up to the next heading in capitals.
func profilesIn(guide string) []string {
	var all []string
	example := ""
	for line := range strings.Lines(guide + "END\n") {
		switch {
		case strings.HasPrefix(line, "    "):
			example += line[4:]
		case strings.TrimSpace(line) == "":
			example += "\n"
		case line == strings.ToUpper(line):
			if strings.Contains(example, "[[record]]") {
				all = append(all, example)
			}
			example = ""
		}
	}
	return all
}
