package review

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The sheet of completeness has the figures of the page: first the jobs that lack nothing, then what the others lack, the
// most frequent first. Without a policy there is no sheet, as there is no section.
func TestCompletenessSheet(t *testing.T) {
	r := mustReview(t)
	for name, c := range map[string]struct {
		judged *Completeness
		want   [][]string // below the heading, as a spreadsheet shows them; nil: no sheet
	}{
		"no policy": {},
		"no jobs":   {&Completeness{Policy: "agreed"}, nil},
		"all complete": {&Completeness{Policy: "agreed", Complete: 4, Due: 4},
			[][]string{{"Nothing: complete", "4", "4", "100.0%", "51.0%", "100.0%"}}},
		"some lack": {&Completeness{Policy: "agreed", Complete: 1, Due: 4, Lacking: []Lack{{What: "Pre-scan", Jobs: 3}, {What: "=1+1", Jobs: 1}}},
			[][]string{{"Nothing: complete", "1", "4", "25.0%", "4.6%", "69.9%"}, {"Pre-scan", "3", "4", "75.0%", "30.1%", "95.4%"},
				{"=1+1", "1", "4", "25.0%", "4.6%", "69.9%"}}},
	} {
		r.Evidence.Completeness = c.judged
		_, f := workbookOf(t, r)
		contents, err := f.GetCols("Cover")
		check(t, err)
		if listed := slices.Contains(contents[0], "Completeness"); listed != (c.want != nil) {
			t.Errorf("%s: listed on the cover: %v", name, listed)
		}
		if c.want == nil {
			if slices.Contains(f.GetSheetList(), "Completeness") {
				t.Errorf("%s: there is a sheet", name)
			}
			continue
		}
		rows, err := f.GetRows("Completeness")
		check(t, err)
		if diff := cmp.Diff(c.want, rows[4:]); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}
