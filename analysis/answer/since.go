package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// A Known is a finding as an earlier review listed it.
type Known struct{ Finding, Kind, Severity, Shop, JobNo, At, Decision string }

// KnownOf lists a finding for a later review.
func KnownOf(f quality.Finding) Known {
	return Known{f.Finding, f.Kind, f.Severity, f.Shop, f.JobNo, say.Moment(f.At), textOf(f.Decision)}
}

// A changed is a finding that is new, decided or gone since an earlier review.
type changed struct {
	how, decision string
	Known
}

// Since is what is new, decided and gone since an earlier review.
func Since(earlier []Known, now []quality.Finding, link Linker) exhibit.Exhibit {
	before := map[string]Known{}
	for _, known := range earlier {
		before[known.Finding] = known
	}
	var all []changed
	count := map[string]int64{}
	add := func(how, decision string, k Known) {
		count[how]++
		all = append(all, changed{how, decision, k})
	}
	for _, finding := range now {
		known, was := before[finding.Finding]
		delete(before, finding.Finding)
		switch k := KnownOf(finding); {
		case !was:
			add("new", RulingWords(finding.Decision, finding.Ruling), k)
		case k.Decision != known.Decision:
			add("decided", RulingWords(finding.Decision, finding.Ruling), k)
		}
	}
	for _, known := range earlier {
		if _, gone := before[known.Finding]; gone {
			add("gone", known.Decision, known)
		}
	}
	e := exhibit.Exhibit{Name: "since", Title: "Since the review before", Says: []string{fmt.Sprintf("%s new, %s decided, %s gone. A finding goes when the records that it rested on "+
		"were corrected, or when it is not of what this review looks at.", say.Sentence(say.NoneOr(count["new"], "finding is", "findings are")), say.OrNone(count["decided"]), say.OrNone(count["gone"]))}}
	if len(all) == 0 {
		return e
	}
	e.Parts = []exhibit.Exhibit{{Name: "since-list", Title: "Which", Folds: true, Table: &exhibit.Table{Caption: "New, decided and gone", All: "plumbline findings", Columns: []exhibit.Column{
		{Name: "change", Heading: "Is"}, {Name: "what"}, {Name: "job"}, {Name: "at", Heading: "When"}, {Name: "severity"}, {Name: "decision", Type: exhibit.Prose}, {Name: "finding", Type: exhibit.Command}},
		Rows: exhibit.Each(all, func(c changed) []any {
			return []any{c.how, kindTitle(c.Kind), exhibit.Cell{Value: c.Shop + "/" + c.JobNo, Link: link(c.Shop, c.JobNo, nil)}, c.At, c.Severity, c.decision, c.Finding}
		})}}}
	return e
}
