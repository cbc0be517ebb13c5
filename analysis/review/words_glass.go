package review

import (
	"fmt"
	"strings"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// glassSays is the answer to one row of the glass question in words that say no more than the numbers do.
func glassSays(a GlassAnswer) string {
	if a.N == 0 {
		return fmt.Sprintf("No %s with %s glass: nothing to compare.", outcomeUnits[a.Outcome], sourceName(a.Source))
	}
	if a.ReferenceN == 0 {
		return fmt.Sprintf("No %s with OEM glass to compare with.", outcomeUnits[a.Outcome])
	}
	seen := fmt.Sprintf("%s glass: %s (%s of %s), OEM glass: %s (%s of %s).", sentence(sourceName(a.Source)),
		percentOr(a.Rate), count(a.Count), count(a.N), percentOr(a.ReferenceRate), count(a.ReferenceCount), count(a.ReferenceN))
	return strings.TrimSpace(seen + " " + glassVerdict(a) + " " + strataDisagree(a))
}

// glassVerdict has one sentence a verdict. "Told" is what is left when the number of rows looked at is allowed for.
func glassVerdict(a GlassAnswer) string {
	alike := fmt.Sprintf("odds ratio not determined, p %s, q %s", probability(a.MHP), probability(a.MHQ))
	if a.MHOddsRatio != nil {
		alike = fmt.Sprintf("odds ratio %.2f, 95\u00a0%% interval %.2f–%.2f, p %s, q %s", *a.MHOddsRatio, *a.MHLow, *a.MHHigh,
			probability(a.MHP), probability(a.MHQ))
	}
	together, within := way(a.RiskDifference != nil && *a.RiskDifference < 0), way(a.MHDifference < 0)
	switch a.Verdict {
	case quality.TooLittle:
		return "Too little to tell. " + couldShow(a)
	case quality.NotComparable:
		return "Not comparable: no make and model got both kinds of glass with both results, so like cannot be compared " +
			"with like."
	case quality.Reverses:
		return fmt.Sprintf("All together the rate is %s, but within the same make and model it is the other way round, %s (%s). "+
			"An association and not a cause.", together, within, alike)
	case quality.Differs:
		return fmt.Sprintf("The rate is %s with this glass, and stays so when like is compared with like (%s). An association "+
			"and not a cause: who fitted it, and when, can differ too.", together, alike)
	case quality.Emerges:
		return fmt.Sprintf("All together no difference is told; within the same make and model the rate is %s (%s). An "+
			"association and not a cause.", within, alike)
	case quality.Fades:
		return fmt.Sprintf("All together the rate is %s, but most of the difference comes from which vehicles got which glass: "+
			"within the same make and model it goes (%s).", together, alike)
	case quality.Unsettled:
		return fmt.Sprintf("All together the rate is %s. The difference does not go when like is compared with like, but too few "+
			"are alike to tell it from chance (%s).", together, alike)
	}
	return fmt.Sprintf("A difference is not shown (within make and model: %s). %s", alike, couldShow(a))
}

func way(less bool) string {
	if less {
		return "lower"
	}
	return "higher"
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
		bounds = append(bounds, "at least "+percent(d.Above))
	}
	if d.HasBelow {
		bounds = append(bounds, "at most "+percent(d.Below))
	}
	return fmt.Sprintf("With this volume only a rate of %s would have been likely to show against OEM's %s (80\u00a0%% power, "+
		"5\u00a0%% two-sided); a smaller difference can be there and not be seen.", strings.Join(bounds, " or "),
		percentOr(a.ReferenceRate))
}

// strataDisagree warns where one ratio does not fit all makes and models.
func strataDisagree(a GlassAnswer) string {
	if a.BDP == nil || *a.BDP >= 0.05 {
		return ""
	}
	return fmt.Sprintf("The makes and models do not agree with each other (Breslow-Day p %s): look at them one by one in the "+
		"table below before you blame the source as a whole.", probability(a.BDP))
}
