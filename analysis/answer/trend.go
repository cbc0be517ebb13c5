package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// A Trend is the control chart of an outcome and what it means.
type Trend struct {
	Outcome quality.Outcome
	Points  []quality.TrendPoint
}

// A trendWord is how the trend of an outcome is spoken of.
type trendWord struct {
	name, sheet, title string
	subject            string // begins a title: The comeback rate …
	usual              string // the usual …
	reads              string // what has to be known to read it
	nothing            string // where no period holds a unit
}

var trendWords = map[quality.Outcome]trendWord{
	quality.NotFirstPass: {"trend", "Not first pass", "Not first pass, month by month", "The share not first pass",
		"share of tasks that are not first pass", "A task is one system in one job. It is first pass when every attempt completed and no method " +
			"was done twice.", "No calibration is on record."},
	quality.Comeback: {"comeback-trend", "Comeback rate", "Comebacks, by the month in which the first job was closed", "The comeback rate", "comeback rate",
		"A month whose jobs have not all been followed for the whole window is an open diamond, stands in no baseline and is never called: its rate " +
			"can still rise.", "No calibrated job has been closed yet."},
	quality.PostScanFault: {"share", "Faults left", "Jobs with a fault left, month by month", "The share of jobs with a fault left",
		"share of jobs with a new or remaining fault", "", "No calibrated job was scanned before and after."},
	quality.OpenFaults: {"per-job", "Open faults", "Open faults per job, month by month", "The number of open faults per job",
		"number of open faults per job", "Counts every open code of any class over all jobs scanned after calibration, also those without a scan " +
			"before: one vehicle can have several.", "No calibrated job was scanned afterwards."},
}

// perUnit reports whether an outcome is counted as occurrences, of which a unit can have several.
func perUnit(o quality.Outcome) bool { return o == quality.OpenFaults }

// Exhibit is the chart with its numbers and what they allow to be said.
func (t Trend) Exhibit(a About) exhibit.Exhibit {
	word := trendWords[t.Outcome]
	e := exhibit.Exhibit{Name: word.name, Title: word.title}
	if len(t.Points) == 0 {
		e.Says = []string{word.nothing}
		return e
	}
	e.Says = t.says(word)
	e.Table = t.table(word)
	e.Drawing = t.drawing(word)
	e.Notes = []string{commandNote(a.allCommand("plumbline trend --outcome " + string(t.Outcome)))}
	e.Sheet = exhibit.Sheet{Name: word.sheet, Keep: 1, About: "Control chart: " + word.title}
	return e
}

// says explains the chart: the usual, the signals of the last year, and how to read it.
func (t Trend) says(word trendWord) []string {
	i := lastFollowed(t.Points)
	if i < 0 {
		return nonEmpty("No month can be judged yet.", word.reads)
	}
	var said []string
	if p := t.Points[i]; p.Center != nil && hasBaseline(t.Points) {
		said = append(said, fmt.Sprintf("The usual %s is %s: all months before the reported one that count, together. Dashed limits are where a month "+
			"lies by chance, with what is not known of the usual in them; they are wider where there were fewer units, and where months differ "+
			"from each other more than chance explains.", word.usual, t.rate(p.Center)))
	} else {
		said = append(said, "There is no earlier month to compare with.")
	}
	first := max(0, len(t.Points)-12)
	signals, judged := "", int64(0)
	for k := first; k < len(t.Points); k++ {
		if judge(t.Points, k) != unjudged {
			judged++
		}
		if len(t.Points[k].Signals) > 0 {
			signals += fmt.Sprintf(" %s: %s.", say.Month(t.Points[k].Period), signalsOf(t.Points, k))
		}
	}
	switch {
	case signals != "":
		said = append(said, "Signals in the last twelve months:"+signals)
	case judged > 0:
		said = append(said, fmt.Sprintf("No signal in %s.", say.One(judged, "the one month of the last twelve that can be judged",
			"the "+say.Count(judged)+" months of the last twelve that can be judged")))
	}
	return nonEmpty(append(said, word.reads)...)
}

func nonEmpty(said ...string) []string {
	var kept []string
	for _, s := range said {
		if s != "" {
			kept = append(kept, s)
		}
	}
	return kept
}

func (t Trend) rate(rate *float64) string {
	if perUnit(t.Outcome) {
		return say.Decimals(rate, 2)
	}
	return say.PercentOr(rate)
}

// title says what the latest followed month shows: the finding in words.
func (t Trend) title(word trendWord) string {
	i := lastFollowed(t.Points)
	if i < 0 {
		return word.subject + " cannot be judged yet"
	}
	month := say.Month(t.Points[i].Period)
	switch judge(t.Points, i) {
	case worse:
		return fmt.Sprintf("%s was higher than usual in %s", word.subject, month)
	case better:
		return fmt.Sprintf("%s was lower than usual in %s", word.subject, month)
	case mixed:
		return fmt.Sprintf("%s was unusual in %s", word.subject, month)
	}
	if hasBaseline(t.Points) && t.Points[i].Center != nil {
		return fmt.Sprintf("%s in %s is within what chance gives", word.subject, month)
	}
	return fmt.Sprintf("%s in %s is the first to be seen", word.subject, month)
}

// label is a point in words, for the pointer.
func (t Trend) label(i int) string {
	p := t.Points[i]
	said := fmt.Sprintf("%s: %s, %s in %s", say.Month(p.Period), t.rate(p.Rate), say.Count(p.Count),
		say.Several(p.N, outcomeUnits[t.Outcome][0], outcomeUnits[t.Outcome][1]))
	if !p.IsMatured() {
		return said + ", not fully followed"
	}
	if len(p.Signals) > 0 {
		said += ": " + signalsOf(t.Points, i)
	}
	return said
}
