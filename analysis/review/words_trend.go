package review

import (
	"fmt"

	"plumbline/analysis/quality"
)

// trendTitle says what the latest followed month shows: the finding in words.
func trendTitle(points []quality.TrendPoint, subject string) string {
	i := lastFollowed(points)
	if i < 0 {
		return subject + " cannot be judged yet"
	}
	month := monthName(points[i].Period)
	switch judge(points, i) {
	case worse:
		return fmt.Sprintf("%s was higher than usual in %s", subject, month)
	case better:
		return fmt.Sprintf("%s was lower than usual in %s", subject, month)
	case mixed:
		return fmt.Sprintf("%s was unusual in %s", subject, month)
	}
	if hasBaseline(points) && points[i].Center != nil {
		return fmt.Sprintf("%s in %s is within what chance gives", subject, month)
	}
	return fmt.Sprintf("%s in %s is the first to be seen", subject, month)
}

// trendSays explains a control chart: the usual, the signals of the last year, and how to read it.
func trendSays(points []quality.TrendPoint, subject, extra string) []string {
	i := lastFollowed(points)
	if i < 0 {
		return []string{"No month can be judged yet.", extra}
	}
	var said []string
	if p := points[i]; p.Center != nil {
		said = append(said, fmt.Sprintf("The usual %s is %s: all months before the reported one together. Dashed limits are "+
			"where a month lies by chance; they are wider where there were fewer units, and where months differ from each other more "+
			"than chance explains.", subject, percent(*p.Center)))
	}
	signals := ""
	for k := max(0, len(points)-12); k < len(points); k++ {
		if len(points[k].Signals) > 0 {
			signals += fmt.Sprintf(" %s: %s.", monthName(points[k].Period), signalsOf(points, k))
		}
	}
	if signals == "" {
		said = append(said, "None of the last twelve months signals.")
	} else {
		said = append(said, "Signals in the last twelve months:"+signals)
	}
	if extra != "" {
		said = append(said, extra)
	}
	return said
}

func commandNote(command string) string { return "The same numbers on the command line: " + command }
