package answer

import (
	"html/template"

	"plumbline/queries"
)

// A Definition says what a figure means and where its method comes from.
type Definition struct {
	Figure  string
	Says    string
	Formula string  // in one line of text; empty where words are enough
	drawn   formula // the same for a page
	Source  string
}

// house is the source of what this project itself defines.
const house = "this project's own definition"

// Definitions lists every figure of the review, in the order of its pages.
func Definitions() []Definition {
	var all []Definition
	for _, part := range [][]Definition{countDefinitions, rateDefinitions, trendDefinitions, groupDefinitions, glassDefinitions,
		timeDefinitions} {
		all = append(all, part...)
	}
	return append(all, findingDefinitions()...)
}

// findingDefinitions are the rules of the kinds of finding, in the order of what a page shows.
func findingDefinitions() []Definition {
	var all []Definition
	for _, page := range []string{"comebacks", "repeats", "post-scan-faults", "evidence"} {
		for _, kind := range queries.OnPage(page) {
			if kind.Places[0].Page == page {
				all = append(all, Definition{Figure: kind.Title, Says: kind.Rule, Source: house})
			}
		}
	}
	return all
}

var countDefinitions = []Definition{
	{Figure: "As-of", Says: "The latest moment that the records speak of, but not later than their import; or the moment that was asked " +
		"for. The history is read as it stood then: what came later is not there.", Source: house},
	{Figure: "Task", Says: "One system and position in one job. Its attempts are in order of their start, then their number.", Source: house},
	{Figure: "First pass", Says: "A task of which every attempt completed and no method was done twice; a static stage and then a dynamic " +
		"stage are one calibration. A task belongs to the month of its first attempt.", Formula: "tasks at first pass / tasks",
		drawn: frac(said("tasks at first pass"), said("tasks")), Source: house},
	{Figure: "Comeback rate", Says: "Of the jobs closed in a month and followed for the whole window (matured), the share with a counted " +
		"comeback within it. A month not all of whose jobs have matured is drawn as an open diamond and not called.",
		Formula: "matured jobs that came back within W days / matured jobs",
		drawn:   frac(said("matured jobs that came back within W days"), said("matured jobs")), Source: house},
	{Figure: "Open faults per job", Says: "Open codes of any class over calibrated jobs with a scan after, with the exact Poisson interval of " +
		"their number.", Formula: "low = G(x, 0.025)/n, high = G(x+1, 0.975)/n, G(a, p) the p quantile of the gamma distribution with shape a",
		drawn: row(frac(row(id("G"), paren(id("x"), op(","), num("0.025"))), id("n")), op("…"),
			frac(row(id("G"), paren(id("x"), op("+"), num("1"), op(","), num("0.975"))), id("n"))),
		Source: "Garwood (1936) Biometrika 28:437-442"},
	{Figure: "Rework", Says: "Hours from start to end of every attempt that follows another of the same method in its task, and of every attempt " +
		"in the visit of a counted comeback, none counted twice, in the month of its start; times the labor rate, where one is given. " +
		"Attempts without an end add no hours and are counted beside.", Formula: "hours × labor rate",
		drawn: row(said("hours"), op("×"), said("labor rate")), Source: house},
	{Figure: "Completeness", Says: "Of the closed jobs with a calibration that were opened in the twelve months, the share that have on record all " +
		"that the requirement policy asks for. It is shown only where the review is made with a policy.",
		Formula: "complete jobs / closed jobs with a calibration",
		drawn:   frac(said("complete jobs"), said("closed jobs with a calibration")), Source: house},
	{Figure: "Severity", Says: "High: a vehicle may be unsafe or is back. Low: the record is imperfect. Medium: all others.", Source: house},
}

var rateDefinitions = []Definition{
	{Figure: "95 % interval of a rate", Says: "Wilson's score interval: the true rates that the count seen does not contradict.",
		Formula: "(x + z²/2 ± z √(x(n−x)/n + z²/4)) / (n + z²), z = 1.96",
		drawn: frac(row(id("x"), op("+"), frac(sup(id("z"), num("2")), num("2")), op("±"), id("z"), root(row(
			frac(row(id("x"), paren(id("n"), op("−"), id("x"))), id("n")), op("+"), frac(sup(id("z"), num("2")), num("4"))))),
			row(id("n"), op("+"), sup(id("z"), num("2")))),
		Source: "Wilson (1927) J. Am. Stat. Assoc. 22:209-212; Newcombe (1998) Stat. Med. 17:857-872, method 3"},
	{Figure: "Difference of two rates", Says: "First less second, in percentage points. Its interval carries the Wilson bounds l and u of each " +
		"rate over. A change can be chance unless it leaves out 0; better and worse are said only with a signal.",
		Formula: "d − √((p₁−l₁)² + (u₂−p₂)²) to d + √((u₁−p₁)² + (p₂−l₂)²)",
		drawn: row(id("d"), op("−"), root(row(square("p", "l", "1"), op("+"), square("u", "p", "2"))), op("…"), id("d"), op("+"),
			root(row(square("u", "p", "1"), op("+"), square("p", "l", "2")))),
		Source: "Newcombe (1998) Stat. Med. 17:873-890, method 10"},
}

// square is (a − b)² with an index.
func square(a, b, index string) formula {
	return sup(paren(sub(id(a), num(index)), op("−"), sub(id(b), num(index))), num("2"))
}

// Drawn is the formula as a page shows it; empty where words are enough.
func (d Definition) Drawn() template.HTML { return d.drawn.HTML() }
