package review

import (
	"regexp"
	"testing"
)

var rateHeading = regexp.MustCompile(`(?i)\b(rate|share|difference|change|cost|odds ratio|risk ratio)\b|95 % (low|high)$`)

// Whatever is called a rate, a share or an interval of one is worked out by the workbook, in every row of every sheet.
func TestRatesAreFormulas(t *testing.T) {
	r, err := gatherSmall(Options{})
	check(t, err)
	leaves, err := r.leaves()
	check(t, err)
	// the interval of the curve and the pooled odds ratios come from sums that no row of the workbook holds
	given := map[string]bool{"Curve steps/95 % low": true, "Curve steps/95 % high": true, "Groups/Like odds ratio": true}
	seen := map[string]int{}
	for _, l := range leaves {
		for _, g := range l.grids {
			for i := range g.rows {
				for k, value := range g.row(i) {
					place := l.name + "/" + g.columns[k].name
					if as := g.columns[k].as; !rateHeading.MatchString(g.columns[k].name) || !as.isNumber() || as == asInput || given[place] {
						continue
					}
					if !isLive(value) {
						t.Errorf("%s, row %d: %v is no formula", place, i, value)
					}
					seen[l.name]++
				}
			}
		}
	}
	for _, sheet := range []string{"Summary", "Not first pass", "Comeback rate", "Faults left", "Open faults", "Systems", "Failure codes", "Rework",
		"Post-scan faults", "Modules", "Glass", "Glass strata", "Groups", "When it started", "Completeness", "Gaps by shop", "Data quality", "Left out", "Imports"} {
		if seen[sheet] == 0 {
			t.Errorf("no rate was seen on the sheet %s", sheet)
		}
	}
}

// isLive tells formulas, and cells that are left empty because there is nothing to work out.
func isLive(value any) bool {
	if s, ok := value.(shaped); ok {
		value = s.value
	}
	if s, ok := value.(toned); ok {
		value = s.value
	}
	_, ok := value.(live)
	return ok || pointedAt(value) == nil
}
