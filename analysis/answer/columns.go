package answer

import (
	"strings"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/stats"
)

// normal is the name of the cell that holds the standard normal deviate of a 95 % interval.
const normal = "z_95"

// Deviate95 is the standard normal deviate that 97.5 % lie below; a workbook works it out itself.
const Deviate95 = 1.959963984540054

// A share is the columns of a proportion: its count, its units, its rate and Wilson's interval of it. Names with
// headings; an empty name has no column.
type share struct {
	count, n, rate, low, high           string
	countHeading, nHeading, rateHeading string
	prefix                              string // before the headings of the interval: Low before
	rank                                exhibit.Rank
}

// columns are in the order count, n, rate, low, high.
func (s share) columns() []exhibit.Column {
	or := func(heading, usual string) string {
		if heading == "" {
			return usual
		}
		return heading
	}
	rate := or(s.rateHeading, "Rate")
	all := []exhibit.Column{
		{Name: s.count, Heading: or(s.countHeading, "Count"), Type: exhibit.Count, Rank: s.rank},
		{Name: s.n, Heading: or(s.nHeading, "n"), Type: exhibit.Count, Rank: s.rank},
		{Name: s.rate, Heading: rate, Type: exhibit.Share, Formula: rateFormula(s.count, s.n), Rank: s.rank},
	}
	if s.low == "" {
		return all
	}
	low, high := wilsonFormulas(s.count, s.n)
	span := "95 % interval"
	if s.prefix != "" {
		span = s.prefix + " 95 % interval"
	}
	return append(all,
		exhibit.Column{Name: s.low, Heading: strings.TrimSpace(s.prefix + " 95 % low"), Type: exhibit.Share, Formula: low, To: s.high, Span: span,
			Rank: max(s.rank, exhibit.Detail)},
		exhibit.Column{Name: s.high, Heading: strings.TrimSpace(s.prefix + " 95 % high"), Type: exhibit.Share, Formula: high, Rank: max(s.rank, exhibit.Detail)})
}

// usualShare is count of n with its rate and interval.
var usualShare = share{count: "count", n: "n", rate: "rate", low: "low", high: "high"}

// rateFormula is count over n.
func rateFormula(count, n string) string { return "{" + count + "}/{" + n + "}" }

// wilsonFormulas are the interval of a share, so that a reader can see how it is made.
//
//	(2x + z^2 -+ z sqrt(z^2 + 4x(1 - x/n))) / (2(n + z^2))
//
// Source: Newcombe (1998) Statistics in Medicine 17:857-872, method 3.
func wilsonFormulas(count, n string) (low, high string) {
	bound := func(cut, edge, sign string) string {
		text := `CUT(EDGE,(2*{x}+Z^2SIGNZ*SQRT(Z^2+4*{x}*(1-{x}/{n})))/(2*({n}+Z^2)))`
		return strings.NewReplacer("{n}", "{"+n+"}", "{x}", "{"+count+"}", "Z", normal, "SIGN", sign, "CUT", cut, "EDGE", edge).Replace(text)
	}
	return bound("MAX", "0", "-"), bound("MIN", "1", "+")
}

// newcombeFormulas are the interval of a difference of two shares from their own intervals.
// Source: Newcombe (1998) Statistics in Medicine 17:873-890, method 10.
func newcombeFormulas(first, second share) (low, high string) {
	named := strings.NewReplacer("{p}", "{"+first.rate+"}", "{l}", "{"+first.low+"}", "{u}", "{"+first.high+"}",
		"{P}", "{"+second.rate+"}", "{L}", "{"+second.low+"}", "{U}", "{"+second.high+"}")
	return named.Replace("{p}-{P}-SQRT(({p}-{l})^2+({U}-{P})^2)"), named.Replace("{p}-{P}+SQRT(({u}-{p})^2+({P}-{L})^2)")
}

// difference is the columns of first less second.
func difference(first, second share, name, low, high string) []exhibit.Column {
	lowText, highText := newcombeFormulas(first, second)
	return []exhibit.Column{
		{Name: name, Heading: "Difference, points", Type: exhibit.Change, Formula: "{" + first.rate + "}-{" + second.rate + "}", Rank: exhibit.Figure},
		{Name: low, Heading: "Diff. low", Type: exhibit.Change, Formula: lowText, To: high, Span: "Its 95 % interval", Rank: exhibit.Detail},
		{Name: high, Heading: "Diff. high", Type: exhibit.Change, Formula: highText, Rank: exhibit.Detail},
	}
}

// interval is two columns of a range that a page shows as one.
func interval(t exhibit.Type, rank exhibit.Rank, span, low, lowHeading, high, highHeading string) []exhibit.Column {
	return []exhibit.Column{{Name: low, Heading: lowHeading, Type: t, To: high, Span: span, Rank: rank}, {Name: high, Heading: highHeading, Type: t, Rank: rank}}
}

// joined puts columns together.
func joined(parts ...any) []exhibit.Column {
	var all []exhibit.Column
	for _, part := range parts {
		switch p := part.(type) {
		case exhibit.Column:
			all = append(all, p)
		case []exhibit.Column:
			all = append(all, p...)
		}
	}
	return all
}

// counts are plain counts, name and heading each.
func counts(rank exhibit.Rank, names ...[2]string) []exhibit.Column {
	all := make([]exhibit.Column, len(names))
	for i, name := range names {
		all[i] = exhibit.Column{Name: name[0], Heading: name[1], Type: exhibit.Count, Rank: rank}
	}
	return all
}

// beside is a column that pages and sheets show and the command does not print.
func beside(c exhibit.Column) exhibit.Column {
	c.Only = exhibit.Pages | exhibit.Sheets
	return c
}

// drawn is a column that exists for a drawing.
func drawn(c exhibit.Column) exhibit.Column {
	c.Only = exhibit.Sheets
	return c
}

// rateOf is a share with its value; nil of nothing.
func rateOf(count, n int64) *float64 {
	if n == 0 {
		return nil
	}
	rate := float64(count) / float64(n)
	return &rate
}

// wilson is the 95 % interval of a share; nil of nothing.
func wilson(count, n int64) (low, high *float64) {
	if n == 0 {
		return nil, nil
	}
	interval, err := stats.Wilson(stats.Proportion{Count: count, N: n}, stats.Level95)
	if err != nil {
		return nil, nil // a count outside 0 to n, which no query gives
	}
	return &interval.Low, &interval.High
}
