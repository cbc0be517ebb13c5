package review

import (
	"fmt"

	"plumbline/analysis/quality"
)

var ratioColumns = []gridColumn{{"Outcome", asText}, {"Source", asText}, {"With", asCount}, {"Without", asCount}, {"OEM with", asCount},
	{"OEM without", asCount}, {"Risk ratio", asRatio}, {"RR low", asRatio}, {"RR high", asRatio}, {"Odds ratio", asRatio}, {"OR low", asRatio},
	{"OR high", asRatio}, {"Like with like", asRatio}, {"MH low", asRatio}, {"MH high", asRatio}}

// glassRatios work on the two by two table of a row: with and without the outcome, under the source and under OEM.
func glassRatios(a GlassAnswer, i int, counts, strata *grid) []any {
	const (
		risk = `IF(OR({With}=0,{OEM with}=0),"",({With}/({With}+{Without}))/({OEM with}/({OEM with}+{OEM without})))`
		katz = `IF({Risk ratio}="","",{Risk ratio}*EXP(%s` + normalName +
			`*SQRT(1/{With}-1/({With}+{Without})+1/{OEM with}-1/({OEM with}+{OEM without}))))`
		odds  = `IF(OR({With}=0,{Without}=0,{OEM with}=0,{OEM without}=0),"",{With}*{OEM without}/({Without}*{OEM with}))`
		woolf = `IF({Odds ratio}="","",{Odds ratio}*EXP(%s` + normalName + `*SQRT(1/{With}+1/{Without}+1/{OEM with}+1/{OEM without})))`
	)
	return []any{plain(string(a.Outcome)), sourceName(a.Source),
		live{counts.at("Count", i), a.Count}, live{counts.at("n", i) + "-" + counts.at("Count", i), a.N - a.Count},
		live{counts.at("OEM count", i), a.ReferenceCount}, live{counts.at("OEM n", i) + "-" + counts.at("OEM count", i), a.ReferenceN - a.ReferenceCount},
		live{risk, a.RiskRatio}, live{fmt.Sprintf(katz, "-"), a.RRLow}, live{fmt.Sprintf(katz, ""), a.RRHigh},
		live{odds, a.OddsRatio}, live{fmt.Sprintf(woolf, "-"), a.ORLow}, live{fmt.Sprintf(woolf, ""), a.ORHigh},
		pooledRatio(a, strata), a.MHLow, a.MHHigh}
}

// pooledRatio is the Mantel-Haenszel odds ratio over the rows of the strata sheet.
func pooledRatio(a GlassAnswer, strata *grid) live {
	sum := func(column string) string {
		return fmt.Sprintf(`SUMIFS(%s,%s,{Outcome},%s,{Source})`, strata.whole(column), strata.whole("Outcome"), strata.whole("Source"))
	}
	return live{fmt.Sprintf(`IF(OR(%[1]s=0,%[2]s=0),"",%[1]s/%[2]s)`, sum("a·d/N"), sum("b·c/N")), a.MHOddsRatio}
}

// strataLeaf shows like beside like: one source and OEM within the same make and model.
func (r Review) strataLeaf() *leaf {
	type placed struct {
		answer  GlassAnswer
		stratum quality.Stratum
	}
	var rows []placed
	for _, answer := range r.Glass.Answers {
		for _, stratum := range answer.Strata {
			rows = append(rows, placed{answer, stratum})
		}
	}
	g := &grid{rows: len(rows), sorts: true, columns: []gridColumn{{"Outcome", asText}, {"Source", asText}, {"Make and model", asText}, {"Count", asCount},
		{"n", asCount}, {"Rate", asShare}, {"OEM count", asCount}, {"OEM n", asCount}, {"OEM rate", asShare}, {"a·d/N", asStandard}, {"b·c/N", asStandard},
		{"Says something", asText}}}
	g.row = func(i int) []any {
		a, s := rows[i].answer, rows[i].stratum
		total := float64(s.Source.N + s.Reference.N)
		with, without := float64(s.Source.Count), float64(s.Source.N-s.Source.Count)
		refWith, refWithout := float64(s.Reference.Count), float64(s.Reference.N-s.Reference.Count)
		return []any{plain(string(a.Outcome)), sourceName(a.Source), s.Name, s.Source.Count, s.Source.N, liveShare("Count", "n", s.Source),
			s.Reference.Count, s.Reference.N, liveShare("OEM count", "OEM n", s.Reference),
			live{"{Count}*({OEM n}-{OEM count})/({n}+{OEM n})", with * refWithout / total},
			live{"({n}-{Count})*{OEM count}/({n}+{OEM n})", without * refWith / total},
			map[bool]string{true: "yes", false: "no"}[s.Informative()]}
	}
	l := &leaf{name: "Glass strata", title: "Like with like: each source and OEM within the same make and model", keep: 3, grids: []*grid{g},
		about: "The strata behind the comparison of like with like",
		says: []string{"A stratum says something where it holds both sources and both results. a and b are the source's units with and without the outcome, c and " +
			"d OEM's, N all of them (Mantel & Haenszel 1959)."}}
	return l.lay()
}
