package review

import (
	"fmt"

	"plumbline/analysis/stats"
)

// section says how complete the records are by the policy, and what they lack most.
func (c Completeness) section(month string) (section, error) {
	s := section{ID: "complete", Heading: "Complete by the requirement policy"}
	if c.Due == 0 {
		s.Says = []string{"No closed job with a calibration was opened in the twelve months to " + month + "."}
		return s, nil
	}
	all := stats.Proportion{Count: c.Complete, N: c.Due}
	interval, err := stats.Wilson(all, stats.Level95)
	if err != nil {
		return s, err
	}
	s.Says = []string{fmt.Sprintf("%s of %s have on record all that the policy “%s” asks for: %s (95%s%% interval %s). "+
		"They are the closed jobs with a calibration that were opened in the twelve months to %s.",
		count(c.Complete), several(c.Due, "job", "jobs"), c.Policy, percent(all.Rate()), nbsp,
		between(&interval.Low, &interval.High), month)}
	if len(c.Lacking) == 0 {
		return s, nil
	}
	t := &table{Caption: "What is missing, the most frequent first",
		Columns: append(words("Missing"), columns(true, "Jobs", "Of "+count(c.Due))...)}
	for _, lack := range c.Lacking {
		share := stats.Proportion{Count: lack.Jobs, N: c.Due}
		t.Rows = append(t.Rows, []cell{text(lack.What), number(count(lack.Jobs)), number(percent(share.Rate()))})
	}
	s.Table = t
	s.Notes = []string{completenessNote}
	return s, nil
}

const completenessNote = "What a complete record holds is the shop's and the insurer's agreement; the default policy is common practice, and the " +
	"maker's procedure may ask for more."
