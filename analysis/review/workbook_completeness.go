package review

import (
	"fmt"

	"plumbline/analysis/stats"
)

// leaf says how many jobs lack nothing that the policy asks for, then what the others lack.
func (c Completeness) leaf(month string) (*leaf, error) {
	var rows [][]any
	add := func(missing string, jobs int64) error {
		share := stats.Proportion{Count: jobs, N: c.Due}
		low, high, err := liveWilsonOf("Count", "n", share)
		rows = append(rows, []any{missing, jobs, c.Due, liveShare("Count", "n", share), low, high})
		return err
	}
	if c.Due > 0 {
		if err := add("Nothing: complete", c.Complete); err != nil {
			return nil, err
		}
	}
	for _, lack := range c.Lacking {
		if err := add(lack.What, lack.Jobs); err != nil {
			return nil, err
		}
	}
	g := &grid{rows: len(rows), sorts: true, row: func(i int) []any { return rows[i] }, columns: []gridColumn{{"What is missing", asLongText},
		{"Count", asCount}, {"n", asCount}, {"Rate", asShare}, {"95 % low", asShare}, {"95 % high", asShare}}}
	l := &leaf{name: "Completeness", title: "Complete by the requirement policy, twelve months to " + month, keep: 1, prose: 56, grids: []*grid{g},
		about: "Jobs with all on record that the requirement policy asks for, and what the others lack",
		says: []string{fmt.Sprintf("The policy is “%s”. n are the closed jobs with a calibration that were opened in the twelve months; the first row counts "+
			"those that lack nothing, each other row those that lack what it names. A job can lack several things.", c.Policy), completenessNote}}
	return l.lay(), nil
}
