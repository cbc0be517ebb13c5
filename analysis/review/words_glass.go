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
	return strings.TrimSpace(seen + " " + glassVerdict(a) + " " + strataDisagree(a) + " " + manyLooks(a))
}

func glassVerdict(a GlassAnswer) string {
	alike := fmt.Sprintf("odds ratio not determined, p %s", probability(a.MHP))
	if a.MHOddsRatio != nil {
		alike = fmt.Sprintf("odds ratio %.2f, 95\u00a0%% interval %.2f–%.2f, p %s", *a.MHOddsRatio, *a.MHLow, *a.MHHigh, probability(a.MHP))
	}
	switch a.Verdict {
	case quality.TooLittle:
		return "Too little to tell. " + couldShow(a)
	case quality.NotComparable:
		return "Not comparable: no make and model got both kinds of glass with both results, so like cannot be compared " +
			"with like."
	case quality.Differs:
		return fmt.Sprintf("The %s rate goes with this glass, also when like is compared with like (%s). This is an "+
			"association and not a cause: who fitted it, and when, can differ too.", direction(a), alike)
	case quality.Fades:
		return fmt.Sprintf("Taken all together the rate is %s, but within the same make and model the difference is no more "+
			"than chance would give (%s). It may come from which vehicles got which glass.", direction(a), alike)
	case quality.Emerges:
		return fmt.Sprintf("Taken all together nothing shows, but within the same make and model the rate is %s (%s). This is "+
			"an association and not a cause.", within(a), alike)
	}
	return fmt.Sprintf("No difference found (within make and model: %s). %s", alike, couldShow(a))
}

func direction(a GlassAnswer) string {
	if a.Rate != nil && a.ReferenceRate != nil && *a.Rate < *a.ReferenceRate {
		return "lower"
	}
	return "higher"
}

func within(a GlassAnswer) string {
	if a.MHOddsRatio != nil && *a.MHOddsRatio < 1 {
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

// manyLooks tells a difference that would not survive the number of rows printed.
func manyLooks(a GlassAnswer) string {
	if a.Verdict != quality.Differs && a.Verdict != quality.Fades || a.Q == nil || *a.Q < 0.05 {
		return ""
	}
	return fmt.Sprintf("Nine rows were compared, and with so many one can look different by chance (q %s).", probability(a.Q))
}
