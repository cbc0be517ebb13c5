package review

import (
	"fmt"

	"plumbline/analysis/stats"
	"plumbline/queries"
)

func (r Review) evidencePage() (page, error) {
	p := page{Lead: []string{"Would the record stand up if someone asked for it? What is missing, out of order or hard to believe.",
		"A gap in the record is not proof that the work was not done. Readings that repeat can be honest; they are worth a question."}}
	if r.About.IsEmpty() {
		return p, nil
	}
	shops, err := r.gapSection()
	if err != nil {
		return p, err
	}
	p.Sections = []section{r.kindSection(), shops}
	if c := r.Evidence.Completeness; c != nil {
		complete, err := c.section(monthName(r.About.Month))
		if err != nil {
			return p, err
		}
		p.Sections = append([]section{complete}, p.Sections...)
	}
	for _, kind := range queries.OnPage("evidence") {
		if found := r.ofKinds(kind); len(found) > 0 {
			s := r.findingSection(kind.Name, kind.Title, found, kind.Name)
			s.Says = append([]string{kind.Means}, s.Says...)
			p.Sections = append(p.Sections, s)
		}
	}
	p.Sections = append(p.Sections, r.digitSection())
	return p, nil
}

// kindSection counts the month's findings by kind, beside the twelve months before.
func (r Review) kindSection() section {
	month := monthName(r.About.Month)
	s := section{ID: "kinds", Heading: "Gaps by kind"}
	t := &table{Caption: "Findings by kind", Columns: append(append(words("Gap"), columns(true, "In "+month, "Jobs",
		"A month before, on average", "Dismissed in "+month)...), words("What it means")...)}
	total := int64(0)
	for _, kind := range queries.OnPage("evidence") {
		var now, jobs, before, dismissed int64
		for _, tally := range r.Evidence.Tallies {
			switch {
			case tally.Kind != kind.Name:
			case tally.Month == r.About.Month:
				now, jobs, dismissed = now+tally.Findings, jobs+tally.Jobs, dismissed+tally.Dismissed
			default:
				before += tally.Findings
			}
		}
		if now == 0 && before == 0 {
			continue
		}
		total += now
		name := text(kind.Title)
		if now > 0 {
			name = link(kind.Title, "#"+kind.Name)
		}
		t.Rows = append(t.Rows, []cell{name, number(count(now)), number(count(jobs)), number(fmt.Sprintf("%.1f", float64(before)/12)),
			number(count(dismissed)), text(kind.Means)})
	}
	s.Says = []string{fmt.Sprintf("%s in %s, in %s closed and %s opened. The average is over the twelve months before.",
		sentence(several(total, "gap", "gaps")), month, several(r.About.Volume.Closed, "job", "jobs"), count(r.About.Volume.Opened))}
	if len(t.Rows) > 0 {
		s.Table = t
	}
	return s
}

// gapSection compares what each shop leaves out.
func (r Review) gapSection() (section, error) {
	s := section{ID: "shops", Heading: "What each shop leaves out, over twelve months"}
	if len(r.Evidence.ByShop) == 0 {
		s.Says = []string{"No calibrated job was closed in these months."}
		return s, nil
	}
	s.Says = []string{"Share of the calibrated jobs closed in the twelve months to " + monthName(r.About.Month) + " that have the gap; a job with " +
		"two gaps of a kind counts once, and dismissed findings do not."}
	t := &table{Caption: "Calibrated jobs with a gap, by shop", Columns: append(words("Gap", "Shop"),
		columns(true, "Share", "Jobs with it", "Calibrated jobs", "95 % interval")...)}
	for _, gap := range r.Evidence.ByShop {
		interval, err := stats.Wilson(gap.Proportion(), stats.Level95)
		if err != nil {
			return s, err
		}
		t.Rows = append(t.Rows, []cell{text(queries.KindNamed(gap.Kind).Title), text(gap.Shop), number(percent(gap.Proportion().Rate())),
			number(count(gap.Count)), number(count(gap.Jobs)), number(between(&interval.Low, &interval.High))})
	}
	s.Table = t
	return s, nil
}
