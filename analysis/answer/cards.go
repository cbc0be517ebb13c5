package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// A Card is one of the month's four figures.
type Card struct {
	Name   string
	Value  string
	Of     string // its n and what it is of
	Range  string // uncertainty
	Before string
	Says   string
	Page   string          // where its vehicles are
	Year   exhibit.Exhibit // twelve months of it
}

// Cards are the four figures of the opening page.
func Cards(a About, figures Figures, lines []quality.ReworkLine) []Card {
	return []Card{firstPassCard(a, figures), comebackCard(a, figures), faultCard(a, figures), reworkCard(a, lines)}
}

func firstPassCard(a About, figures Figures) Card {
	c := Card{Name: "First pass", Page: "repeats.html#findings", Value: say.None, Of: "no calibration tasks in the month"}
	if f := figures.in(a.Month, "first_pass"); f != nil {
		c.fill(*f, say.Several(f.Now.N, "task", "tasks"))
	}
	return c
}

func comebackCard(a About, figures Figures) Card {
	c := Card{Name: "Comebacks", Page: "comebacks.html#returns", Value: say.None,
		Of: fmt.Sprintf("no month's jobs have been followed for %d days yet", a.Scope.WindowDays)}
	if f := figures.named("comeback"); f != nil {
		c.fill(*f, say.Several(f.Now.N, "job", "jobs")+" closed in "+say.Month(f.Now.Period))
		c.Says += fmt.Sprintf(" Later months are not followed for the full %d days: open diamonds.", a.Scope.WindowDays)
	}
	return c
}

func faultCard(a About, figures Figures) Card {
	c := Card{Name: "Open post-scan faults", Page: "post-scan-faults.html#findings", Value: say.None, Of: "no calibrated job was scanned afterwards in the month"}
	f := figures.in(a.Month, "open_faults")
	if f == nil {
		return c
	}
	c.fill(*f, "")
	c.Value, c.Of = say.Count(f.Now.Count), "over "+say.Several(f.Now.N, "scanned job", "scanned jobs")
	c.Range = fmt.Sprintf("%s a job, 95%s%% interval %s", say.Decimals(f.Now.Rate, 2), say.NBSP, readers[f.Name].between(f.Now.Low, f.Now.High))
	return c
}

// fill writes a figure on a card.
func (c *Card) fill(f Figure, of string) {
	reader := readers[f.Name]
	c.Value, c.Of = reader.rate(f.Now.Rate), say.Count(f.Now.Count)+" of "+of
	c.Range = "95" + say.NBSP + "% interval " + reader.between(f.Now.Low, f.Now.High)
	if b := f.Before; b != nil && b.Rate != nil {
		c.Before = fmt.Sprintf("%s: %s (%s of %s)", say.Month(b.Period), reader.rate(b.Rate), say.Count(b.Count), say.Count(b.N))
	}
	c.Says = say.Sentence(f.usualWords()) + "." + f.signalNote()
	c.Year = f.year(c.Name)
}

// year is twelve months of a figure and the one before them, small.
func (f Figure) year(name string) exhibit.Exhibit {
	reader, points := readers[f.Name], f.Points[max(0, len(f.Points)-13):]
	of := exhibit.Share
	if reader.perUnit {
		of = exhibit.PerUnit
	}
	t := &exhibit.Table{Caption: name + " by month", Latest: true, Columns: joined(exhibit.Column{Name: "month", Type: exhibit.Month}, exhibit.Column{Name: "rate", Type: of},
		counts(exhibit.Figure, [2]string{"count", "Count"}, [2]string{"n", "n"}), exhibit.Column{Name: "followed", Heading: "Note"},
		exhibit.Column{Name: "drawn", Type: of, Only: exhibit.Drawings}, exhibit.Column{Name: "open", Type: of, Only: exhibit.Drawings})}
	t.Rows = exhibit.Each(points, func(p quality.TrendPoint) []any {
		rate, hits := p.Rate, p.Count
		if reader.complement && rate != nil {
			spared := 1 - *rate
			rate, hits = &spared, p.N-p.Count
		}
		if p.IsMatured() {
			return []any{p.Period, rate, hits, p.N, nil, rate, nil}
		}
		return []any{p.Period, rate, hits, p.N, exhibit.Cell{Value: "not fully followed", Mark: exhibit.Open}, nil, rate}
	})
	return exhibit.Exhibit{Name: name, Table: t, Drawing: &exhibit.Drawing{Title: name + ", last twelve months", Mini: true,
		Alt:    name + " by month; the numbers are in the table below",
		Across: exhibit.Axis{Column: "month", Scale: exhibit.Names}, Up: exhibit.Axis{Type: of, Scale: exhibit.Zoomed},
		Label: func(i int) string {
			return fmt.Sprintf("%s: %s, n %s", say.Month(points[i].Period), say.Value(t.Columns[1], t.Value(i, "rate")), say.Count(points[i].N))
		},
		Series: []exhibit.Series{{Name: "followed", Column: "drawn", Look: exhibit.Track}, {Name: "not fully followed", Column: "open", Look: exhibit.Unfinished}}}}
}

func reworkCard(a About, lines []quality.ReworkLine) Card {
	before := a.From.AddDate(0, -1, 0).Format("2006-01")
	now, past := ReworkIn(lines, a.Month), ReworkIn(lines, before)
	c := Card{Name: "Rework", Page: "repeats.html#rework", Value: fmt.Sprintf("%.1f h", now.Hours), Of: "in " + say.Several(now.Attempts, "attempt done again", "attempts done again"),
		Before: fmt.Sprintf("%s: %.1f h", say.Month(before), past.Hours)}
	switch {
	case now.Attempts == 0:
		c.Of = "no attempt done again"
	case now.WithoutEnd == 0:
		c.Range = "counted, not sampled: every attempt has its end on record"
	default:
		c.Range = fmt.Sprintf("a lower bound: %s no end on record", say.Several(now.WithoutEnd, "attempt has", "attempts have"))
	}
	c.Says = "No labor rate was given, so there is no money figure (plumbline review --labor-rate RATE)."
	if money := a.Money(now.Hours); money != "" {
		c.Says = fmt.Sprintf("At %s an hour: %s.", a.Money(1), money)
	}
	c.Year = Rework(a, lines)
	c.Year.Name, c.Year.Parts = c.Name, nil
	c.Year.Drawing.Mini, c.Year.Drawing.Title, c.Year.Drawing.Up.Name = true, c.Name+", last twelve months", ""
	c.Year.Drawing.Series = []exhibit.Series{{Name: "hours", Column: "hours", Look: exhibit.Bars}}
	return c
}
