package review

import (
	"regexp"
	"testing"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
)

var rateHeading = regexp.MustCompile(`(?i)\b(rate|share|difference|change|cost|odds ratio|risk ratio)\b|95 % (low|high)$`)

// given are columns that come from sums which no row of the workbook holds.
var given = map[string]bool{"Curve steps/low": true, "Curve steps/high": true, "Groups/like_odds_ratio": true, "What stands out/odds_ratio": true, "Actions/like_odds_ratio": true, "When it started/change": true}

// Whatever is called a rate, a share or an interval of one is worked out by the workbook, in every row of every sheet.
func TestRatesAreFormulas(t *testing.T) {
	r, err := gatherSmall(Options{})
	check(t, err)
	exhibits, err := r.sheets()
	check(t, err)
	seen := map[string]int{}
	for _, e := range exhibits {
		sheet := e.Sheet.Name
		for _, part := range e.All() {
			if part.Sheet.Name != "" {
				sheet = part.Sheet.Name
			}
			if part.Table == nil || sheet == "" {
				continue
			}
			for _, at := range part.Table.In(exhibit.Sheets) {
				c := part.Table.Columns[at]
				if !c.Type.IsNumber() || c.Type == exhibit.Input || !rateHeading.MatchString(say.Heading(c)) || given[sheet+"/"+c.Name] {
					continue
				}
				if c.Formula == "" {
					t.Errorf("%s/%s is no formula", sheet, c.Name)
				}
				seen[sheet] += part.Table.Rows.Len
			}
		}
	}
	for _, sheet := range []string{"Summary", "Not first pass", "Comeback rate", "Faults left", "Open faults", "Systems", "Failure codes", "Rework",
		"Post-scan faults", "Modules", "Glass", "Glass strata", "Groups", "When it started", "Completeness", "What changed", "Waits", "Hours of the day", "Gaps by shop", "Data quality", "Left out", "Imports"} {
		if seen[sheet] == 0 {
			t.Errorf("no rate was seen on the sheet %s", sheet)
		}
	}
}
