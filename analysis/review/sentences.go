package review

import (
	"fmt"
	"strings"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// monthSentences say what the month was. They call it better or worse only where a control chart signals or the
// interval of a difference leaves out zero.
func monthSentences(r Review) ([]string, error) {
	first, err := firstPassSentence(r)
	if err != nil {
		return nil, err
	}
	return []string{first, comebackSentence(r), decisionSentence(r)}, nil
}

func firstPassSentence(r Review) (string, error) {
	month, volume := monthName(r.About.Month), r.About.Volume
	figure := figureNamed(r.Figures, "first_pass")
	if figure == nil || figure.Now.Rate == nil || figure.Now.Period != r.About.Month {
		return fmt.Sprintf("In %s no calibration is on record (%s closed).", month,
			noneOr(volume.Closed, "job", "jobs")), nil
	}
	now := figure.Now
	said := fmt.Sprintf("In %s, %s of %s passed the first time: %s (95\u00a0%% interval %s)", month, count(now.Count),
		several(now.N, "calibration task", "calibration tasks"), percent(*now.Rate), between(now.Low, now.High))
	said += ", " + relative(usualWords(figure.Points, placeOf(figure.Points, now.Period), true))
	against, err := againstBefore(figure)
	return said + against + ".", err
}

// usualWords compares a month with its control chart. Complement says that the reader sees the share spared, as with
// first pass; better and worse stay the same.
func usualWords(points []quality.TrendPoint, i int, complement bool) string {
	if i < 0 {
		return "with no months to compare with"
	}
	p := points[i]
	if p.Center == nil || !hasBaseline(points) {
		return "with no earlier months to compare with"
	}
	center, lower, upper := *p.Center, p.Lower, p.Upper
	if complement {
		center = 1 - center
		if lower != nil && upper != nil {
			low, high := 1-*upper, 1-*lower
			lower, upper = &low, &high
		}
	}
	switch judge(points, i) {
	case worse:
		return fmt.Sprintf("worse than the usual %s", percent(center))
	case better:
		return fmt.Sprintf("better than the usual %s", percent(center))
	case mixed:
		return fmt.Sprintf("unusual against %s, with signals that point both ways", percent(center))
	case usual:
		return fmt.Sprintf("within what chance gives around the usual %s (limits %s)", percent(center), between(lower, upper))
	}
	return "not yet to be judged"
}

// relative hangs a comparison on the sentence before it.
func relative(comparison string) string {
	for _, call := range []string{"better ", "worse ", "unusual "} {
		if strings.HasPrefix(comparison, call) {
			return "which is " + comparison
		}
	}
	return comparison
}

// hasBaseline reports whether any period with units sets the usual.
func hasBaseline(points []quality.TrendPoint) bool {
	for _, p := range points {
		if p.InBaseline && p.N > 0 {
			return true
		}
	}
	return false
}

// againstBefore compares a figure with the month before it; higher is better, as for first pass.
func againstBefore(figure *Figure) (string, error) {
	if figure.Before == nil || figure.Before.Rate == nil || figure.Now.Rate == nil {
		return "", nil
	}
	before := monthName(figure.Before.Period)
	was := fmt.Sprintf("%s, n %s", percent(*figure.Before.Rate), count(figure.Before.N))
	difference, err := stats.NewcombeDifference(proportionOf(figure.Now), proportionOf(*figure.Before), stats.Level95)
	if err != nil {
		return "", err
	}
	low, high := difference.Interval.Low, difference.Interval.High
	span := fmt.Sprintf("%s points, 95\u00a0%% interval %s to %s", signed(difference.Value), signed(low), signed(high))
	switch {
	case low > 0:
		return fmt.Sprintf(", and better than in %s (%s; %s)", before, was, span), nil
	case high < 0:
		return fmt.Sprintf(", and worse than in %s (%s; %s)", before, was, span), nil
	}
	return fmt.Sprintf("; the change from %s (%s) can be chance (%s)", before, was, span), nil
}

func proportionOf(r quality.Reading) stats.Proportion {
	return stats.Proportion{Count: r.Count, N: r.N}
}

// signed writes a difference of rates in points, with its sign.
func signed(d float64) string {
	if written := points(d); strings.HasPrefix(written, "-") {
		return "−" + written[1:]
	} else if written != "0.0" {
		return "+" + written
	}
	return "0.0"
}

func comebackSentence(r Review) string {
	month := monthName(r.About.Month)
	said := fmt.Sprintf("%s came back in %s (%s the month before)", sentence(noneOr(r.About.Volume.Returns, "vehicle", "vehicles")),
		month, orNone(r.About.Before.Returns))
	figure := figureNamed(r.Figures, "comeback")
	if figure == nil || figure.Now.Rate == nil {
		return said + fmt.Sprintf("; no month's jobs have all been followed for %d days yet, so there is no comeback rate.",
			r.About.Scope.WindowDays)
	}
	now := figure.Now
	return said + fmt.Sprintf("; of the %s closed in %s, the latest month followed for the full %d days, %s did: %s "+
		"(95\u00a0%% interval %s), %s.", several(now.N, "calibrated job", "calibrated jobs"), monthName(now.Period),
		r.About.Scope.WindowDays, orNone(now.Count), percent(*now.Rate), between(now.Low, now.High),
		relative(usualWords(figure.Points, placeOf(figure.Points, now.Period), false)))
}

func decisionSentence(r Review) string {
	waiting := int64(0)
	for _, group := range r.Decisions {
		waiting += int64(len(group.Findings))
	}
	figure := figureNamed(r.Figures, "open_faults")
	faults := "No calibrated job was scanned afterwards"
	if figure != nil && figure.Now.N > 0 && figure.Now.Period == r.About.Month {
		faults = fmt.Sprintf("At the last scan, %s %s open over %s", noneOr(figure.Now.Count, "fault", "faults"),
			map[bool]string{true: "was", false: "were"}[figure.Now.Count < 2], several(figure.Now.N, "scanned job", "scanned jobs"))
	}
	if waiting == 0 {
		return faults + ", and no finding of the month waits for a decision."
	}
	return fmt.Sprintf("%s, and %s of the month %s for a decision: the gravest is “%s”.", faults,
		several(waiting, "finding", "findings"), map[bool]string{true: "waits", false: "wait"}[waiting == 1],
		r.Decisions[0].Heading)
}

// figureNamed finds a figure; nil where the review has none of the name.
func figureNamed(figures []Figure, name string) *Figure {
	for i := range figures {
		if figures[i].Name == name {
			return &figures[i]
		}
	}
	return nil
}
