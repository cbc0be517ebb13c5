package review

import (
	"fmt"
	"strings"

	"plumbline/analysis/quality"
)

func (r Review) glassPage() (page, error) {
	p := page{Lead: []string{"Does it matter which windshield was fitted? Front-camera calibrations after a windshield, each source " +
		"beside the vehicle maker's own part (OEM; OEE is a part equivalent to it), over all records up to " + monthName(r.About.Month) + ".",
		"What follows are associations, not causes. Different vehicles get different glass; comparing within the same " +
			strings.Join(r.Glass.Strata, " and ") + " takes that out, and leaves out what the records do not hold."}}
	if r.About.IsEmpty() {
		return page{Lead: p.Lead[:1]}, nil
	}
	if !r.hasGlass() {
		p.Sections = []section{{ID: "none", Heading: "No glass to compare",
			Says: []string{"No front-camera calibration follows a windshield whose source is on record."}}}
		return p, nil
	}
	for _, outcome := range quality.Outcomes {
		s, err := r.glassSection(outcome)
		if err != nil {
			return p, err
		}
		p.Sections = append(p.Sections, s)
	}
	groups, err := r.groupSections("glass", r.Glass.Groups)
	p.Sections = append(p.Sections, groups...)
	return p, err
}

func (r Review) hasGlass() bool {
	for _, answer := range r.Glass.Answers {
		if answer.N > 0 || answer.ReferenceN > 0 {
			return true
		}
	}
	return false
}

// glassSection is one outcome: three answers, crude beside adjusted, and the strata behind them.
func (r Review) glassSection(outcome quality.Outcome) (section, error) {
	s := section{ID: "glass-" + strings.ReplaceAll(string(outcome), "_", "-"), Heading: sentence(outcomeNames[outcome])}
	var answers []GlassAnswer
	for _, answer := range r.Glass.Answers {
		if answer.Outcome == outcome {
			answers = append(answers, answer)
			s.Says = append(s.Says, glassSays(answer))
		}
	}
	var err error
	s.Chart, err = glassChart(chart{ID: chartID("glass", string(outcome)), Title: glassTitle(answers),
		Alt: "Odds ratios of each glass source against oem, crude and within make and model"}, answers)
	s.Table = glassTable("Each source against OEM: "+outcomeNames[outcome], answers)
	s.Notes = []string{commandNote(r.About.allCommand("plumbline glass")),
		"Marks are drawn with their 95 % intervals. crude: all vehicles together. like with like: within the same make and model (Mantel-Haenszel). An interval that includes 1 is " +
			"compatible with no difference. A ratio that the counts do not determine has a dash and no mark in the chart."}
	for _, answer := range answers {
		if layers := strataTable(answer); layers != nil {
			s.More = append(s.More, block{Heading: sentence(sourceName(answer.Source)) + " and OEM within the same make and model",
				Table: layers, Fold: true})
		}
	}
	return s, err
}

// glassTitle says which sources differ, by their verdicts alone.
func glassTitle(answers []GlassAnswer) string {
	sources := map[quality.Verdict][]string{}
	for _, a := range answers {
		sources[a.Verdict] = append(sources[a.Verdict], sourceName(a.Source))
	}
	var said []string
	for _, verdict := range []struct {
		word quality.Verdict
		says string
	}{{quality.Reverses, "from OEM, like with like the other way round"}, {quality.Differs, "from OEM, also like with like"},
		{quality.Emerges, "from OEM only like with like"}, {quality.Fades, "from OEM only until like is compared with like"},
		{quality.Unsettled, "from OEM, but too few are alike to settle it"}} {
		names := sources[verdict.word]
		if len(names) > 0 {
			differ := map[bool]string{true: " differs ", false: " differ "}[len(names) == 1]
			said = append(said, strings.Join(names, " and ")+differ+verdict.says)
		}
	}
	if len(said) == 0 {
		return "No source is shown to differ from OEM"
	}
	return sentence(strings.Join(said, "; "))
}

// glassTable has a column a source, so that it stands beside the chart and fits a phone.
func glassTable(caption string, answers []GlassAnswer) *table {
	t := &table{Caption: caption, Columns: words("Figure")}
	for _, a := range answers {
		t.Columns = append(t.Columns, columns(true, sourceName(a.Source))...)
	}
	ratio := func(x, low, high *float64) string {
		if x == nil {
			return "–"
		}
		return fmt.Sprintf("%.2f (%.2f–%.2f)", *x, *low, *high)
	}
	for _, figure := range []struct {
		name string
		of   func(GlassAnswer) string
	}{
		{"Rate", func(a GlassAnswer) string { return percentOr(a.Rate) }},
		{"Count of n", func(a GlassAnswer) string { return count(a.Count) + " of " + count(a.N) }},
		{"OEM rate", func(a GlassAnswer) string { return percentOr(a.ReferenceRate) }},
		{"OEM count of n", func(a GlassAnswer) string { return count(a.ReferenceCount) + " of " + count(a.ReferenceN) }},
		{"Difference, points", differenceWords},
		{"Risk ratio", func(a GlassAnswer) string { return ratio(a.RiskRatio, a.RRLow, a.RRHigh) }},
		{"Odds ratio, crude", func(a GlassAnswer) string { return ratio(a.OddsRatio, a.ORLow, a.ORHigh) }},
		{"Odds ratio, like with like", func(a GlassAnswer) string { return ratio(a.MHOddsRatio, a.MHLow, a.MHHigh) }},
		{"p, crude (Fisher)", func(a GlassAnswer) string { return probability(a.FisherP) }},
		{"p, like with like (Mantel-Haenszel)", func(a GlassAnswer) string { return probability(a.MHP) }},
		{"p, strata agree (Breslow-Day)", func(a GlassAnswer) string { return probability(a.BDP) }},
		{"q, crude", func(a GlassAnswer) string { return probability(a.Q) }},
		{"q, like with like", func(a GlassAnswer) string { return probability(a.MHQ) }},
		{"Verdict", func(a GlassAnswer) string { return plain(string(a.Verdict)) }},
	} {
		row := []cell{text(figure.name)}
		for _, a := range answers {
			row = append(row, number(figure.of(a)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func differenceWords(a GlassAnswer) string {
	if a.RiskDifference == nil {
		return "–"
	}
	return fmt.Sprintf("%s (%s to %s)", signed(*a.RiskDifference), signed(*a.RDLow), signed(*a.RDHigh))
}

// strataTable is like beside like; nil where no stratum says anything.
func strataTable(a GlassAnswer) *table {
	t := &table{Caption: fmt.Sprintf("%s: the strata that hold both sources and both results", sentence(sourceName(a.Source))),
		Columns: append(words("Make and model"), columns(true, sourceName(a.Source)+" rate", "count", "n", "OEM rate", "count", "n")...)}
	silent := 0
	for _, layer := range a.Strata {
		if !layer.Informative() {
			silent++
			continue
		}
		t.Rows = append(t.Rows, []cell{text(layer.Name), number(percent(layer.Source.Rate())), number(count(layer.Source.Count)),
			number(count(layer.Source.N)), number(percent(layer.Reference.Rate())), number(count(layer.Reference.Count)),
			number(count(layer.Reference.N))})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	if silent > 0 {
		t.Rest = several(int64(silent), "further stratum holds", "further strata hold") + " only one source or only one result and so " +
			map[bool]string{true: "says", false: "say"}[silent == 1] + " nothing."
	}
	return t
}
