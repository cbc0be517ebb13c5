package review

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plumbline/analysis/quality"
	"plumbline/queries"
)

// Every kind of finding is shown on the page that its header names, with its number, and on no page that the review does
// not have; its rule stands on the page of definitions.
func TestEveryKindIsOnItsPage(t *testing.T) {
	r, dir := mustReview(t), t.TempDir()
	numbers := map[string]string{}
	r.Findings, r.Comebacks.Year = nil, nil
	for i, kind := range queries.Catalogue() {
		number := fmt.Sprintf("%016x", 0xabcdef00+i)
		numbers[kind.Name] = number
		finding := quality.Finding{Finding: number, Kind: kind.Name, Severity: "medium", Shop: "birch", JobNo: number}
		if len(kind.Classes) > 0 {
			finding.Class = &kind.Classes[0].Name
		}
		r.Findings = append(r.Findings, finding)
		if kind.Name == "comeback" {
			r.Comebacks.Year = []quality.Return{{Finding: number, Class: *finding.Class}}
		}
	}
	if _, err := Write(context.Background(), r, dir); err != nil {
		t.Fatal(err)
	}
	definitions := read(t, filepath.Join(dir, "definitions.html"))
	for _, kind := range queries.Catalogue() {
		for _, place := range kind.Places {
			page, err := os.ReadFile(filepath.Join(dir, place.Page+".html"))
			if err != nil {
				t.Errorf("%s names a page that the review does not have: %v", kind.Name, err)
			}
			if !strings.Contains(string(page), numbers[kind.Name]) {
				t.Errorf("%s is not on its page, %s.html", kind.Name, place.Page)
			}
		}
		if !strings.Contains(definitions, kind.Title) {
			t.Errorf("the definitions do not tell of %q", kind.Title)
		}
	}
}
