package answer

import (
	"cmp"
	"slices"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// CompareTable is groups side by side, in the order of the comparison.
func CompareTable(c quality.Comparison, link GroupLinker) *exhibit.Table {
	return &exhibit.Table{Caption: compareTitle(c), Columns: compareColumns(groupingHeading(c.By)), Rows: exhibit.Each(c.Groups, func(g quality.Group) []any {
		row := compareRow(g)
		if link != nil {
			row[0] = exhibit.Cell{Value: g.Group, Link: link(c.By, g.Group)}
		}
		return row
	})}
}

// rankedTable is the same, the highest rate first; equal ones in the order of their names.
func rankedTable(c quality.Comparison) *exhibit.Table {
	c.Groups = slices.Clone(c.Groups)
	slices.SortStableFunc(c.Groups, func(one, other quality.Group) int {
		return cmp.Or(cmp.Compare(other.Rate, one.Rate), cmp.Compare(one.Group, other.Group))
	})
	return CompareTable(c, nil)
}

// What only the drawings need: a group's count and its rate where it is called, or not.
const (
	groupHigher = "drawn_higher"
	groupLower  = "drawn_lower"
	groupPlain  = "drawn_no_call"
	rateHigher  = "rate_higher"
	rateLower   = "rate_lower"
	ratePlain   = "rate_no_call"
)

func compareColumns(of string) []exhibit.Column {
	rates := share{count: "count", n: "n", rate: "rate", low: "wilson_low", high: "wilson_high"}.columns()
	rates[0], rates[1] = rates[1], rates[0] // n before count, as the command prints them
	deep := func(name, heading string, t exhibit.Type) exhibit.Column {
		return exhibit.Column{Name: name, Heading: heading, Type: t, Rank: exhibit.Depth}
	}
	inDrawing := func(name string, t exhibit.Type) exhibit.Column {
		return exhibit.Column{Name: name, Type: t, Only: exhibit.Drawings}
	}
	return joined(exhibit.Column{Name: "group", Heading: of}, rates, deep("shrunken", "Shrunken", exhibit.Share),
		deep("funnel_95_low", "95 % limit low", exhibit.Share), deep("funnel_95_high", "95 % limit high", exhibit.Share),
		deep("funnel_998_low", "99.8 % limit low", exhibit.Share), deep("funnel_998_high", "99.8 % limit high", exhibit.Share),
		deep("p", "p, crude", exhibit.Probability), deep("q", "q, crude", exhibit.Probability), deep("design_effect", "Design effect", exhibit.Ratio),
		exhibit.Column{Name: "like_n", Heading: "n in like work", Type: exhibit.Count, Rank: exhibit.Detail},
		exhibit.Column{Name: "like_count", Heading: "Seen in like work", Type: exhibit.Count, Rank: exhibit.Detail},
		exhibit.Column{Name: "expected", Heading: "Expected", Type: exhibit.Hours, Rank: exhibit.Figure},
		exhibit.Column{Name: "covered", Heading: "Covered", Type: exhibit.Share, Rank: exhibit.Depth, Formula: "{like_n}/{n}"},
		exhibit.Column{Name: "like_odds_ratio", Heading: "Odds ratio, like with like", Type: exhibit.Ratio, Rank: exhibit.Figure},
		interval(exhibit.Ratio, exhibit.Detail, "Its 95 % interval", "like_low", "OR low", "like_high", "OR high"),
		deep("like_p", "p, like with like", exhibit.Probability),
		exhibit.Column{Name: "like_q", Heading: "q", Type: exhibit.Probability, Rank: exhibit.Figure},
		exhibit.Column{Name: "call", Heading: "Call", Type: exhibit.Word, Says: callWord},
		inDrawing(groupPlain, exhibit.Count), inDrawing(groupHigher, exhibit.Count), inDrawing(groupLower, exhibit.Count),
		inDrawing(ratePlain, exhibit.Share), inDrawing(rateHigher, exhibit.Share), inDrawing(rateLower, exhibit.Share))
}

// callWord is a call for a reader.
func callWord(call string) string {
	if call == "" {
		return ""
	}
	return say.Plain(call)
}

func compareRow(g quality.Group) []any {
	call := exhibit.Cell{Value: string(g.Call)}
	marks := make([]any, 6)
	place := 0
	switch g.Call {
	case quality.Higher:
		call.Mark, place = exhibit.Higher, 1
	case quality.Lower:
		call.Mark, place = exhibit.Lower, 2
	}
	marks[place], marks[place+3] = g.LikeCount, g.Rate
	return append([]any{g.Group, g.N, g.Count, g.Rate, g.WilsonLow, g.WilsonHigh, g.Shrunken, g.Funnel95Low, g.Funnel95High, g.Funnel998Low,
		g.Funnel998High, g.P, g.Q, g.DesignEffect, g.LikeN, g.LikeCount, g.Expected, g.Covered, g.LikeOddsRatio, g.LikeLow, g.LikeHigh, g.LikeP,
		g.LikeQ, call}, marks...)
}
