package review

import (
	"strings"

	"plumbline/analysis/stats"
)

// glassLeaves are the glass-source question: the answers in words, the figures with their formulas, and the strata.
func (r Review) glassLeaves() ([]*leaf, error) {
	strata := r.strataLeaf()
	figures, err := r.glassLeaf(strata.grids[0])
	return []*leaf{r.verdictLeaf(), figures, strata}, err
}

func (r Review) verdictLeaf() *leaf {
	listed := r.Glass.Answers
	g := &grid{rows: len(listed), sorts: true, columns: []gridColumn{{"Outcome", asText}, {"Source", asText}, {"Verdict", asText}, {"In words", asLongText}}}
	g.row = func(i int) []any {
		a := listed[i]
		return []any{plain(string(a.Outcome)), sourceName(a.Source), plain(string(a.Verdict)), glassSays(a)}
	}
	l := &leaf{name: "Glass verdicts", title: "Does it matter which windshield was fitted?", keep: 2, grids: []*grid{g}, prose: 110,
		about: "The glass-source question in words, a row an outcome and source",
		says: []string{"Front-camera calibrations after a windshield, each source beside the vehicle maker's own part (OEM), over all records up to " +
			monthName(r.About.Month) + ". What follows are associations, not causes."}}
	return l.lay()
}

// glassLeaf shows counts, ratios and tests of every row; what can be worked out from the counts is a formula.
func (r Review) glassLeaf(strata *grid) (*leaf, error) {
	counts, err := r.glassCounts()
	if err != nil {
		return nil, err
	}
	n := len(r.Glass.Answers)
	ratios := &grid{caption: "Ratios to OEM", rows: n, columns: ratioColumns}
	tests := &grid{caption: "Tests", rows: n, columns: []gridColumn{{"Outcome", asText}, {"Source", asText}, {"p, crude (Fisher)", asProbability},
		{"Chi-squared, like with like", asRatio}, {"p, like with like", asProbability}, {"Chi-squared, strata agree", asRatio},
		{"p, strata agree", asProbability}, {"q, crude", asProbability}, {"q, like with like", asProbability}, {"Verdict", asText}}}
	l := &leaf{name: "Glass", title: "Glass source: each source beside OEM", keep: 2, grids: []*grid{counts, ratios, tests},
		about: "Counts, rates, differences, ratios and tests of the glass-source question",
		says: []string{"Like with like is within the same " + strings.Join(r.Glass.Strata, " and ") + " (Mantel-Haenszel): its odds ratio is the sum of a·d/N over the " +
			"sum of b·c/N on the sheet Glass strata. Intervals are 95 %: Wilson of a rate, Newcombe's method 10 of a difference, Katz of the risk ratio, " +
			"Woolf of the odds ratio, Robins-Breslow-Greenland of the pooled one. Figures that the counts do not determine are empty."}}
	ratios.row = func(i int) []any { return glassRatios(r.Glass.Answers[i], i, counts, strata) }
	tests.row = func(i int) []any {
		a := r.Glass.Answers[i]
		return []any{plain(string(a.Outcome)), sourceName(a.Source), a.FisherP, a.MHChi2, a.MHP, a.BDChi2, a.BDP, a.Q, a.MHQ, plain(string(a.Verdict))}
	}
	return l.lay(), nil
}

func (r Review) glassCounts() (*grid, error) {
	rows := make([][]any, len(r.Glass.Answers))
	for i, a := range r.Glass.Answers {
		low, high, err := liveWilsonOf("Count", "n", stats.Proportion{Count: a.Count, N: a.N})
		if err != nil {
			return nil, err
		}
		refLow, refHigh, err := liveWilsonOf("OEM count", "OEM n", stats.Proportion{Count: a.ReferenceCount, N: a.ReferenceN})
		if err != nil {
			return nil, err
		}
		rows[i] = []any{plain(string(a.Outcome)), sourceName(a.Source), a.Count, a.N, liveRate("Count", "n", a.Rate), low, high, a.ReferenceCount,
			a.ReferenceN, liveRate("OEM count", "OEM n", a.ReferenceRate), refLow, refHigh,
			live{bothSides(`{Rate}-{OEM rate}`), a.RiskDifference},
			live{bothSides(`{Difference}-SQRT(({Rate}-{95 % low})^2+({OEM high}-{OEM rate})^2)`), a.RDLow},
			live{bothSides(`{Difference}+SQRT(({95 % high}-{Rate})^2+({OEM rate}-{OEM low})^2)`), a.RDHigh}}
	}
	return &grid{caption: "Counts, rates and their differences", rows: len(rows), row: func(i int) []any { return rows[i] }, columns: []gridColumn{
		{"Outcome", asText}, {"Source", asText}, {"Count", asCount}, {"n", asCount}, {"Rate", asShare}, {"95 % low", asShare}, {"95 % high", asShare},
		{"OEM count", asCount}, {"OEM n", asCount}, {"OEM rate", asShare}, {"OEM low", asShare}, {"OEM high", asShare},
		{"Difference", asChange}, {"Diff. low", asChange}, {"Diff. high", asChange}}}, nil
}

// bothSides leaves a figure empty unless both sources have units.
func bothSides(text string) string { return `IF(OR({n}=0,{OEM n}=0),"",` + text + ")" }
