package review

import (
	"fmt"

	"plumbline/analysis/quality"
)

// cards are the four figures of the opening page.
func (r Review) cards() ([]card, error) {
	first, err := r.firstPassCard()
	if err != nil {
		return nil, err
	}
	returns, err := r.comebackCard()
	if err != nil {
		return nil, err
	}
	faults, err := r.faultCard()
	if err != nil {
		return nil, err
	}
	again, err := r.reworkCard()
	return []card{first, returns, faults, again}, err
}

func (r Review) firstPassCard() (card, error) {
	c := card{Name: "First pass", Page: "repeats.html", Value: "–", Of: "no calibration tasks in the month"}
	figure := figureNamed(r.Figures, "first_pass")
	if figure == nil || figure.Now.Rate == nil || figure.Now.Period != r.About.Month {
		return c, nil
	}
	fillRate(&c, *figure, several(figure.Now.N, "task", "tasks"))
	place := placeOf(figure.Points, figure.Now.Period)
	c.Says = sentence(usualWords(figure.Points, place, true)) + "." + signalNote(figure.Points, place)
	return r.withTrend(c, *figure, sparkline{scale: 100, complement: true, unit: "tasks"})
}

func (r Review) comebackCard() (card, error) {
	c := card{Name: "Comebacks", Page: "comebacks.html", Value: "–",
		Of: fmt.Sprintf("no month's jobs have been followed for %d days yet", r.About.Scope.WindowDays)}
	figure := figureNamed(r.Figures, "comeback")
	if figure == nil || figure.Now.Rate == nil {
		return c, nil
	}
	fillRate(&c, *figure, several(figure.Now.N, "job", "jobs")+" closed in "+monthName(figure.Now.Period))
	place := placeOf(figure.Points, figure.Now.Period)
	c.Says = sentence(usualWords(figure.Points, place, false)) + "." + signalNote(figure.Points, place) +
		fmt.Sprintf(" Later months are not followed for the full %d days: open diamonds.", r.About.Scope.WindowDays)
	return r.withTrend(c, *figure, sparkline{scale: 100, unit: "jobs"})
}

func (r Review) faultCard() (card, error) {
	c := card{Name: "Open post-scan faults", Page: "post-scan-faults.html", Value: "–",
		Of: "no calibrated job was scanned afterwards in the month"}
	figure := figureNamed(r.Figures, "open_faults")
	if figure == nil || figure.Now.Rate == nil || figure.Now.Period != r.About.Month {
		return c, nil
	}
	now := figure.Now
	c.Value, c.Of = count(now.Count), "over "+several(now.N, "scanned job", "scanned jobs")
	c.Range = fmt.Sprintf("%s a job, 95\u00a0%% interval %s–%s", decimals(now.Rate, 2), decimals(now.Low, 2), decimals(now.High, 2))
	if b := figure.Before; b != nil && b.Rate != nil {
		c.Before = fmt.Sprintf("%s: %s over %s (%s a job)", monthName(b.Period), count(b.Count),
			several(b.N, "job", "jobs"), decimals(b.Rate, 2))
	}
	place := placeOf(figure.Points, now.Period)
	c.Says = sentence(faultWords(figure.Points, place)) + "." + signalNote(figure.Points, place)
	return r.withTrend(c, *figure, sparkline{scale: 1, unit: "jobs"})
}

// faultWords is usualWords for occurrences a job, which are no shares.
func faultWords(points []quality.TrendPoint, i int) string {
	p := points[i]
	if p.Center == nil || !hasBaseline(points) {
		return "with no earlier months to compare with"
	}
	switch judge(points, i) {
	case worse:
		return "worse than the usual " + decimals(p.Center, 2) + " a job"
	case better:
		return "better than the usual " + decimals(p.Center, 2) + " a job"
	case mixed:
		return "unusual against " + decimals(p.Center, 2) + " a job, with signals that point both ways"
	}
	return fmt.Sprintf("within what chance gives around the usual %s a job (limits %s–%s)", decimals(p.Center, 2),
		decimals(p.Lower, 2), decimals(p.Upper, 2))
}

func (r Review) reworkCard() (card, error) {
	now := reworkIn(r.Failures.Rework, r.About.Month)
	before := reworkIn(r.Failures.Rework, r.About.From.AddDate(0, -1, 0).Format("2006-01"))
	c := card{Name: "Rework", Page: "repeats.html#rework", Value: fmt.Sprintf("%.1f h", now.hours),
		Of:     "in " + several(now.attempts, "attempt done again", "attempts done again"),
		Before: fmt.Sprintf("%s: %.1f h", monthName(r.About.From.AddDate(0, -1, 0).Format("2006-01")), before.hours)}
	c.Range = fmt.Sprintf("a lower bound: %s no end on record", map[bool]string{true: "1 attempt has",
		false: count(now.withoutEnd) + " attempts have"}[now.withoutEnd == 1])
	if now.withoutEnd == 0 {
		c.Range = "counted, not sampled: every attempt has its end on record"
	}
	if now.attempts == 0 {
		c.Of, c.Range = "no attempt done again", ""
	}
	if money := r.About.money(now.hours); money != "" {
		c.Says = fmt.Sprintf("At %s an hour: %s.", r.About.money(1), money)
	} else {
		c.Says = "No labor rate was given, so there is no money figure (plumbline review --labor-rate RATE)."
	}
	return r.reworkTrend(c)
}

// fillRate writes a rate's figures on a card.
func fillRate(c *card, f Figure, of string) {
	c.Value, c.Of = percent(*f.Now.Rate), count(f.Now.Count)+" of "+of
	c.Range = "95" + nbsp + "% interval " + between(f.Now.Low, f.Now.High)
	if b := f.Before; b != nil && b.Rate != nil {
		c.Before = fmt.Sprintf("%s: %s (%s of %s)", monthName(b.Period), percent(*b.Rate), count(b.Count), count(b.N))
	}
}

func signalNote(points []quality.TrendPoint, i int) string {
	if i < 0 || len(points[i].Signals) == 0 {
		return ""
	}
	return " Signal: " + signalsOf(points, i) + "."
}
