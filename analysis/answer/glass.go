package answer

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// A GlassAnswer is one row of the glass question with the smallest difference that its volume could have shown.
type GlassAnswer struct {
	quality.GlassRow
	Detectable *stats.Detectable // nil where a side has no units
}

// Glass is the glass-source question for one outcome: its answers in words, figures, and the strata behind them.
func Glass(a About, outcome quality.Outcome, answers []GlassAnswer) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "glass-" + strings.ReplaceAll(string(outcome), "_", "-"), Title: say.Sentence(outcomeNames[outcome])}
	var own []GlassAnswer
	for _, answer := range answers {
		if answer.Outcome == outcome {
			own = append(own, answer)
			e.Says = append(e.Says, glassSays(answer))
		}
	}
	e.Table = GlassTable(own)
	e.Table.Caption = "Each source against OEM: " + outcomeNames[outcome]
	e.Drawing = glassDrawing(own)
	e.Notes = []string{commandNote(a.allCommand("plumbline glass")),
		"Marks are drawn with their 95 % intervals. Crude: all vehicles together. Like with like: within the same make and model (Mantel-Haenszel). A ratio " +
			"that the counts do not determine has a dash and no mark. q allows for the rows compared here and for the other outcomes."}
	for _, answer := range own {
		if layers := strataTable(answer); layers != nil {
			e.Parts = append(e.Parts, exhibit.Exhibit{Name: e.Name + "-" + answer.Source, Folds: true, Table: layers,
				Title: say.Sentence(sourceName(answer.Source)) + " and OEM within the same make and model"})
		}
	}
	return e
}

// glassSays is the answer to one row of the glass question in words that say no more than the numbers do.
func glassSays(a GlassAnswer) string {
	if a.N == 0 {
		return fmt.Sprintf("No %s with %s glass: nothing to compare.", outcomeUnits[a.Outcome][0], sourceName(a.Source))
	}
	if a.ReferenceN == 0 {
		return fmt.Sprintf("No %s with OEM glass to compare %s glass with.", outcomeUnits[a.Outcome][0], sourceName(a.Source))
	}
	seen := fmt.Sprintf("%s glass: %s, OEM glass: %s.", say.Sentence(sourceName(a.Source)), say.OutOf(a.Count, a.N), say.OutOf(a.ReferenceCount, a.ReferenceN))
	return strings.TrimSpace(seen + " " + glassVerdict(a) + " " + strataDisagree(a))
}

// notACause stands wherever a difference is told.
const notACause = "This is an association and not a cause: who fitted it, and when, can differ too."

// glassVerdict is one template a verdict.
func glassVerdict(a GlassAnswer) string {
	crude, alike := direction(a.RiskDifference != nil && *a.RiskDifference < 0), alikeWords(a)
	switch a.Verdict {
	case quality.TooLittle:
		return "Too few to tell. " + couldShow(a)
	case quality.NotComparable:
		return "Not comparable: no make and model got both kinds of glass with both results, so there is no like to compare with."
	case quality.Reverses:
		return fmt.Sprintf("All together the rate is %s with this glass; within the same vehicles it is the other way round, %s (%s). %s", crude, alikeWay(a), alike,
			notACause)
	case quality.Differs:
		return fmt.Sprintf("The %s rate goes with this glass, and the difference stays when like is compared with like (%s). %s", crude, alike, notACause)
	case quality.Emerges:
		return fmt.Sprintf("A difference shows only when like is compared with like: within the same make and model the rate is %s (%s). %s", alikeWay(a), alike,
			notACause)
	case quality.Fades:
		return fmt.Sprintf("All together the rate is %s, but most of the difference comes from which vehicles got which glass: within the same make and model "+
			"it is not shown (%s).", crude, alike)
	case quality.Unsettled:
		return fmt.Sprintf("All together the rate is %s. The difference does not go when like is compared with like, but too few are alike to tell it from "+
			"chance (%s). %s", crude, alike, notACause)
	}
	return fmt.Sprintf("A difference is not shown (within make and model: %s). %s", alike, couldShow(a))
}

func direction(lower bool) string {
	if lower {
		return "lower"
	}
	return "higher"
}

// alikeWay is the side on which like with like lies.
func alikeWay(a GlassAnswer) string {
	if a.Verdict == quality.Reverses {
		return direction(a.RiskDifference != nil && *a.RiskDifference >= 0)
	}
	return direction(a.MHOddsRatio != nil && *a.MHOddsRatio < 1)
}

func alikeWords(a GlassAnswer) string {
	if a.MHOddsRatio == nil || a.MHLow == nil || a.MHHigh == nil {
		return "odds ratio not determined, q " + say.Probability(a.MHQ)
	}
	return fmt.Sprintf("odds ratio %.2f, 95%s%% interval %.2f–%.2f, q %s", *a.MHOddsRatio, say.NBSP, *a.MHLow, *a.MHHigh, say.Probability(a.MHQ))
}

// couldShow names the smallest difference that the volume could have shown.
func couldShow(a GlassAnswer) string {
	d := a.Detectable
	if d != nil && d.Below < 0.0005 {
		d = &stats.Detectable{Above: d.Above, HasAbove: d.HasAbove} // none at all would not be told from so few
	}
	if d == nil || !d.HasAbove && !d.HasBelow {
		return "No difference, however large, would have been likely to show with so few."
	}
	var bounds []string
	if d.HasAbove {
		bounds = append(bounds, "at least "+say.Percent(d.Above))
	}
	if d.HasBelow {
		bounds = append(bounds, "at most "+say.Percent(d.Below))
	}
	return fmt.Sprintf("With this volume only a rate of %s would have been likely to show against OEM's %s (80%s%% power, 5%s%% two-sided); a smaller "+
		"difference can be there and not be seen.", strings.Join(bounds, " or "), say.PercentOr(a.ReferenceRate), say.NBSP, say.NBSP)
}

// strataDisagree warns where one ratio does not fit all makes and models.
func strataDisagree(a GlassAnswer) string {
	if a.BDP == nil || *a.BDP >= 0.05 {
		return ""
	}
	return fmt.Sprintf("The makes and models do not agree with each other (Breslow-Day p %s): look at them one by one in the table below before you blame "+
		"the source as a whole.", say.Probability(a.BDP))
}

// glassFinding says which sources differ, by their verdicts alone.
func glassFinding(answers []GlassAnswer) string {
	sources := map[quality.Verdict][]string{}
	for _, a := range answers {
		sources[a.Verdict] = append(sources[a.Verdict], sourceName(a.Source))
	}
	var said []string
	for _, verdict := range []struct {
		word quality.Verdict
		says string
	}{{quality.Differs, "from OEM, also like with like"}, {quality.Emerges, "from OEM only like with like"},
		{quality.Reverses, "from OEM, and the other way round like with like"},
		{quality.Unsettled, "from OEM all together; like with like it is not settled"},
		{quality.Fades, "from OEM only until like is compared with like"}} {
		if names := sources[verdict.word]; len(names) > 0 {
			said = append(said, say.And(names)+say.One(int64(len(names)), " differs ", " differ ")+verdict.says)
		}
	}
	if !slices.ContainsFunc(answers, func(a GlassAnswer) bool { return a.N > 0 && a.ReferenceN > 0 }) {
		return "There is nothing to compare with OEM"
	}
	if len(said) == 0 {
		return "No source is shown to differ from OEM"
	}
	return say.Sentence(strings.Join(said, "; "))
}
