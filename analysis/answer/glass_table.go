package answer

import (
	"fmt"
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// GlassTable is each source beside the reference, a row each, with what can be worked out from the counts as formulas.
func GlassTable(answers []GlassAnswer) *exhibit.Table {
	own, reference := share{count: "count", n: "n", rate: "rate", low: "rate_low", high: "rate_high"},
		share{count: "reference_count", n: "reference_n", rate: "reference_rate", low: "reference_low", high: "reference_high",
			countHeading: "OEM count", nHeading: "OEM n", rateHeading: "OEM rate", prefix: "OEM"}
	shares := func(s share) []exhibit.Column {
		c := s.columns()
		c[0], c[1] = c[1], c[0]
		c[3], c[4] = drawn(c[3]), drawn(c[4])
		return []exhibit.Column{c[0], c[1], c[2], c[3], c[4]}
	}
	const (
		risk  = `({count}/{n})/({reference_count}/{reference_n})`
		katz  = `{risk_ratio}*EXP(%s` + normal + `*SQRT(1/{count}-1/{n}+1/{reference_count}-1/{reference_n}))`
		odds  = `{count}*({reference_n}-{reference_count})/(({n}-{count})*{reference_count})`
		woolf = `{odds_ratio}*EXP(%s` + normal + `*SQRT(1/{count}+1/({n}-{count})+1/{reference_count}+1/({reference_n}-{reference_count})))`
	)
	sum := func(column string) string {
		return "SUMIFS({glass-strata!" + column + ":},{glass-strata!outcome:},{outcome},{glass-strata!source:},{source})"
	}
	ratio := func(name, heading, formula, low, high, bound string, rank exhibit.Rank) []exhibit.Column {
		ends := interval(exhibit.Ratio, exhibit.Detail, "Its 95 % interval", low, say.Sentence(say.Plain(low)), high, say.Sentence(say.Plain(high)))
		if bound != "" {
			ends[0].Formula, ends[1].Formula = fmt.Sprintf(bound, "-"), fmt.Sprintf(bound, "")
		}
		ends[0].Rank, ends[1].Rank = max(rank, exhibit.Detail), max(rank, exhibit.Detail)
		return joined(exhibit.Column{Name: name, Heading: heading, Type: exhibit.Ratio, Formula: formula, Rank: rank}, ends)
	}
	tested := func(name, heading string, t exhibit.Type, rank exhibit.Rank) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Type: t, Rank: rank}
	}
	columns := joined(exhibit.Column{Name: "outcome", Says: outcomeName, Only: exhibit.Files | exhibit.Sheets}, exhibit.Column{Name: "source", Says: sourceName},
		shares(own), shares(reference), difference(own, reference, "risk_difference", "rd_low", "rd_high"),
		ratio("risk_ratio", "Risk ratio", risk, "rr_low", "rr_high", katz, exhibit.Depth),
		ratio("odds_ratio", "Odds ratio, crude", odds, "or_low", "or_high", woolf, exhibit.Figure),
		tested("fisher_p", "p, crude (Fisher)", exhibit.Probability, exhibit.Depth),
		ratio("mh_odds_ratio", "Odds ratio, like with like", sum("ad")+"/"+sum("bc"), "mh_low", "mh_high", "", exhibit.Figure),
		tested("mh_chi2", "Chi-squared, like with like", exhibit.Ratio, exhibit.Depth), tested("mh_p", "p, like with like", exhibit.Probability, exhibit.Depth),
		tested("bd_chi2", "Chi-squared, strata agree", exhibit.Ratio, exhibit.Depth), tested("bd_p", "p, strata agree", exhibit.Probability, exhibit.Detail),
		tested("q", "q, crude", exhibit.Probability, exhibit.Figure), tested("mh_q", "q, like with like", exhibit.Probability, exhibit.Figure),
		exhibit.Column{Name: "verdict", Type: exhibit.Word}, drawn(exhibit.Column{Name: "says", Heading: "In words", Type: exhibit.Prose}))
	return &exhibit.Table{Columns: columns, Rows: exhibit.Each(answers, glassCells)}
}

func glassCells(a GlassAnswer) []any {
	ownLow, ownHigh := wilson(a.Count, a.N)
	oemLow, oemHigh := wilson(a.ReferenceCount, a.ReferenceN)
	verdict := exhibit.Cell{Value: string(a.Verdict)}
	switch a.Verdict {
	case quality.Differs, quality.Emerges, quality.Reverses:
		verdict.Mark = map[string]exhibit.Mark{"higher": exhibit.Higher, "lower": exhibit.Lower}[alikeWay(a)]
	}
	return []any{string(a.Outcome), a.Source, a.N, a.Count, a.Rate, ownLow, ownHigh, a.ReferenceN, a.ReferenceCount, a.ReferenceRate, oemLow, oemHigh,
		a.RiskDifference, a.RDLow, a.RDHigh, a.RiskRatio, a.RRLow, a.RRHigh, a.OddsRatio, a.ORLow, a.ORHigh, a.FisherP, a.MHOddsRatio, a.MHLow, a.MHHigh,
		a.MHChi2, a.MHP, a.BDChi2, a.BDP, a.Q, a.MHQ, verdict, glassSays(a)}
}

// glassDrawing shows crude beside adjusted odds ratios with their intervals, on a logarithmic axis: 1 is equal. A ratio
// that the counts do not determine has its row and no mark.
func glassDrawing(answers []GlassAnswer) *exhibit.Drawing {
	t := &exhibit.Table{}
	for _, name := range []string{"row", "crude", "crude_low", "crude_high", "alike", "alike_low", "alike_high", "equal", "label"} {
		t.Columns = append(t.Columns, exhibit.Column{Name: name, Type: exhibit.Ratio})
	}
	t.Columns[0].Type, t.Columns[8].Type = exhibit.Text, exhibit.Text
	var rows [][]any
	for _, a := range answers {
		rows = append(rows, ratioRow(a.Source, "crude", 1, a.OddsRatio, a.ORLow, a.ORHigh), ratioRow(a.Source, "like with like", 4, a.MHOddsRatio, a.MHLow, a.MHHigh))
	}
	t.Rows = exhibit.Given(rows...)
	return &exhibit.Drawing{Title: glassFinding(answers), Alt: "Odds ratios of each glass source against OEM, crude and within make and model", Rows: t,
		Up: exhibit.Axis{Column: "row", Scale: exhibit.Names}, Across: exhibit.Axis{Scale: exhibit.Log, Name: "odds ratio against OEM"},
		Label: func(i int) string { return fmt.Sprintf("%v: %v", rows[i][0], rows[i][8]) },
		Series: []exhibit.Series{{Name: "equal", Column: "equal", Look: exhibit.Centre}, {Column: "crude_low", To: "crude_high", Look: exhibit.Span},
			{Column: "alike_low", To: "alike_high", Look: exhibit.OtherSpan}, {Name: "crude", Column: "crude", Look: exhibit.HollowDot, Label: "label"},
			{Name: "like with like", Column: "alike", Look: exhibit.Notable, Label: "label"}}}
}

func ratioRow(source, kind string, at int, ratio, low, high *float64) []any {
	row := make([]any, 9)
	row[0], row[7] = sourceName(source)+", "+kind, 1.0
	if ratio == nil || low == nil || high == nil || *low <= 0 {
		row[0] = row[0].(string) + ": –"
		return row
	}
	row[at], row[at+1], row[at+2] = *ratio, *low, *high
	row[8] = fmt.Sprintf("%.2f (%.2f–%.2f)", *ratio, *low, *high)
	return row
}

func strataColumns(source string) []exhibit.Column {
	own, oem := share{count: "count", n: "n", rate: "rate", countHeading: source + " count", nHeading: source + " n", rateHeading: source + " rate"},
		share{count: "oem_count", n: "oem_n", rate: "oem_rate", countHeading: "OEM count", nHeading: "OEM n", rateHeading: "OEM rate"}
	return joined(exhibit.Column{Name: "stratum", Heading: "Make and model"}, own.columns(), oem.columns(),
		drawn(exhibit.Column{Name: "ad", Heading: "a·d/N", Type: exhibit.Level, Formula: "{count}*({oem_n}-{oem_count})/({n}+{oem_n})"}),
		drawn(exhibit.Column{Name: "bc", Heading: "b·c/N", Type: exhibit.Level, Formula: "({n}-{count})*{oem_count}/({n}+{oem_n})"}),
		drawn(exhibit.Column{Name: "informative", Heading: "Says something"}))
}

func stratumRow(s quality.Stratum) []any {
	total := float64(s.Source.N + s.Reference.N)
	with, without := float64(s.Source.Count), float64(s.Source.N-s.Source.Count)
	refWith, refWithout := float64(s.Reference.Count), float64(s.Reference.N-s.Reference.Count)
	return []any{s.Name, s.Source.Count, s.Source.N, rateOf(s.Source.Count, s.Source.N), s.Reference.Count, s.Reference.N, rateOf(s.Reference.Count, s.Reference.N),
		with * refWithout / total, without * refWith / total, map[bool]string{true: "yes", false: "no"}[s.Informative()]}
}

// strataTable is like beside like; nil where no stratum says anything.
func strataTable(a GlassAnswer) *exhibit.Table {
	var told []quality.Stratum
	for _, s := range a.Strata {
		if s.Informative() {
			told = append(told, s)
		}
	}
	if len(told) == 0 {
		return nil
	}
	t := &exhibit.Table{Caption: say.Sentence(sourceName(a.Source)) + ": the strata that hold both sources and both results",
		Columns: strataColumns(say.Sentence(sourceName(a.Source))), Rows: exhibit.Each(told, stratumRow)}
	if silent := int64(len(a.Strata) - len(told)); silent > 0 {
		t.Rest = say.Several(silent, "further stratum holds", "further strata hold") + " only one source or only one result and so " +
			say.One(silent, "says", "say") + " nothing."
	}
	return t
}

// GlassSheets are the question's figures over all outcomes, and all strata, for a workbook.
func GlassSheets(a About, strata []string, answers []GlassAnswer) []exhibit.Exhibit {
	tables := make([]*exhibit.Table, len(answers))
	for i, answer := range answers {
		tables[i] = &exhibit.Table{Columns: strataColumns("Source"), Rows: exhibit.Each(answer.Strata, stratumRow)}
	}
	keys := []exhibit.Column{{Name: "outcome", Says: outcomeName}, {Name: "source", Says: sourceName}}
	layers := exhibit.Stack(keys, tables, func(i int) []any { return []any{string(answers[i].Outcome), answers[i].Source} })
	return []exhibit.Exhibit{
		{Name: "glass", Title: "Glass source: each source beside OEM", Table: GlassTable(answers),
			Sheet: exhibit.Sheet{Name: "Glass", Keep: 2, Prose: 110, About: "The glass-source question: counts, rates, differences, ratios, tests, and the answer in words"},
			Says: []string{"Front-camera calibrations after a windshield, each source beside the vehicle maker's own part (OEM), over all records up to " +
				a.monthWords() + ". What follows are associations, not causes. Like with like is within the same " + strings.Join(strata, " and ") +
				" (Mantel-Haenszel): its odds ratio is the sum of a·d/N over the sum of b·c/N on the sheet Glass strata.",
				"Intervals are 95 %: Wilson of a rate, Newcombe's method 10 of a difference, Katz of the risk ratio, Woolf of the odds ratio, " +
					"Robins-Breslow-Greenland of the pooled one. Figures that the counts do not determine are empty."}},
		{Name: "glass-strata", Title: "Like with like: each source and OEM within the same make and model", Table: layers,
			Sheet: exhibit.Sheet{Name: "Glass strata", Keep: 3, About: "The strata behind the comparison of like with like"},
			Says: []string{"A stratum says something where it holds both sources and both results. a and b are the source's units with and without the outcome, c " +
				"and d OEM's, N all of them (Mantel & Haenszel 1959)."}},
	}
}
