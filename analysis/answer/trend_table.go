package answer

import (
	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
)

// The columns that only the drawing needs: a month without a value there has no mark.
const (
	drawnRate    = "drawn_rate"
	drawnHigher  = "drawn_higher"
	drawnLower   = "drawn_lower"
	drawnNotable = "drawn_both_ways"
	drawnOpen    = "drawn_open"
)

func (t Trend) table(word trendWord) *exhibit.Table {
	made := &exhibit.Table{Caption: word.title, Latest: true, Columns: t.columns()}
	made.Rows = exhibit.Rows{Len: len(t.Points), At: t.row}
	return made
}

func (t Trend) columns() []exhibit.Column {
	of := exhibit.Share
	if perUnit(t.Outcome) {
		of = exhibit.PerUnit
	}
	center := `IF(COUNTIF({baseline:},"yes")=0,SUM({count:})/SUM({n:}),SUMIF({baseline:},"yes",{count:})/SUMIF({baseline:},"yes",{n:}))`
	mark := func(name, heading, formula string) exhibit.Column {
		return drawn(exhibit.Column{Name: name, Heading: heading, Type: of, Formula: formula})
	}
	return joined(
		exhibit.Column{Name: "period", Heading: "Month", Type: exhibit.Month},
		exhibit.Column{Name: "n", Heading: say.Sentence(unitsOf(t.Outcome)), Type: exhibit.Count},
		exhibit.Column{Name: "count", Heading: "Count", Type: exhibit.Count},
		exhibit.Column{Name: "rate", Heading: "Rate", Type: of, Formula: rateFormula("count", "n")},
		exhibit.Column{Name: "matured_share", Heading: "Matured share", Type: exhibit.Share, Rank: exhibit.Depth, Formula: "{n}/{units}"},
		drawn(exhibit.Column{Name: "units", Heading: "Units, matured or not", Type: exhibit.Count}),
		drawn(exhibit.Column{Name: "baseline", Heading: "Baseline"}),
		exhibit.Column{Name: "center", Heading: "Centre", Type: of, Rank: exhibit.Depth, Formula: center},
		interval(of, exhibit.Detail, "Limits", "lower", "Lower limit", "upper", "Upper limit"),
		exhibit.Column{Name: "sigma_z", Heading: "Sigma z", Type: exhibit.Level, Rank: exhibit.Depth},
		exhibit.Column{Name: "signals", Heading: "Signals", Type: exhibit.Word, Only: exhibit.Files},
		beside(exhibit.Column{Name: "said", Heading: "Signals"}),
		mark(drawnRate, "Rate of the month", "{rate}"), mark(drawnHigher, "Signal, higher", "{rate}"), mark(drawnLower, "Signal, lower", "{rate}"),
		mark(drawnNotable, "Signals both ways", "{rate}"), mark(drawnOpen, "Not yet followed", "{rate}"))
}

func (t Trend) row(i int) []any {
	p := t.Points[i]
	lower, upper := p.Lower, p.Upper
	if !p.IsMatured() {
		lower, upper = nil, nil // limits are for months that can be called
	}
	marks := make([]any, 5)
	said := any(nil)
	switch judged := judge(t.Points, i); {
	case p.N == 0 && p.Units == 0:
		said = "nothing on record"
	case !p.IsMatured():
		said = exhibit.Cell{Value: "not yet followed: " + say.Count(p.N) + " of " + say.Count(p.Units), Mark: exhibit.Open}
		marks[4] = p.Rate
	default:
		marks[0] = p.Rate
		if place, stands := map[judgement]int{worse: 1, better: 2, mixed: 3}[judged]; stands {
			said = exhibit.Cell{Value: signalsOf(t.Points, i), Mark: []exhibit.Mark{exhibit.Higher, exhibit.Lower, exhibit.Signal}[place-1]}
			marks[place] = p.Rate
		}
	}
	return append([]any{p.Period, p.N, p.Count, p.Rate, p.MaturedShare, p.Units, map[bool]string{true: "yes", false: "no"}[p.InBaseline], p.Center,
		lower, upper, p.SigmaZ, p.Signals, said}, marks...)
}

func (t Trend) drawing(word trendWord) *exhibit.Drawing {
	of := exhibit.Share
	if perUnit(t.Outcome) {
		of = exhibit.PerUnit
	}
	d := &exhibit.Drawing{Title: t.title(word), Alt: "Control chart: " + word.title + ", with centre and limits", Native: true, Label: t.label,
		Across: exhibit.Axis{Column: "period", Scale: exhibit.Names}, Up: exhibit.Axis{Type: of},
		Series: []exhibit.Series{
			{Name: "month", Column: drawnRate, Look: exhibit.Track}, {Name: "centre", Column: "center", Look: exhibit.Centre},
			{Name: "limits", Column: "upper", Look: exhibit.Limit}, {Name: "limits", Column: "lower", Look: exhibit.Limit},
			{Name: "signal, higher", Column: drawnHigher, Look: exhibit.Beyond}, {Name: "signal, lower", Column: drawnLower, Look: exhibit.Under},
			{Name: "signals both ways", Column: drawnNotable, Look: exhibit.Notable},
			{Name: "not yet followed", Column: drawnOpen, Look: exhibit.Unfinished}}}
	return d
}
