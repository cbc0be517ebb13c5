package review

import (
	"fmt"
	"strings"

	"plumbline/analysis/quality"
)

// codeSection is the Pareto of failure codes, with what came of them.
func (r Review) codeSection() (section, error) {
	s := section{ID: "codes", Heading: "Why attempts did not complete, over twelve months"}
	pattern := r.Failures.Codes
	if pattern.N == 0 {
		s.Says = []string{"Every attempt of these months completed."}
		return s, nil
	}
	first := pattern.Failures[0]
	s.Says = []string{fmt.Sprintf("%s did not complete. The commonest: %s, %s of them (%s). Of jobs without any failed attempt %s "+
		"came back (%s of %s followed for the whole window); a code that comes back clearly more often is worth a look at its cause.",
		sentence(several(pattern.N, "attempt", "attempts")), failureName(first), count(first.N), percent(first.Share),
		percent(pattern.Base.Rate()), count(pattern.Base.Count), count(pattern.Base.N))}
	t := &table{Caption: "Failure codes, the commonest first", Columns: append(words("Code and text"), columns(true, "Attempts", "Jobs",
		"Share", "With all above", "Next attempt completed", "95 % interval", "Jobs that came back")...)}
	for _, f := range pattern.Failures {
		next, back := "–", "–"
		if f.NextShare != nil {
			next = fmt.Sprintf("%s (%s of %s)", percent(*f.NextShare), count(f.CompletedNext), count(f.Retried))
		}
		if f.BackShare != nil {
			back = fmt.Sprintf("%s (%s of %s)", percent(*f.BackShare), count(f.CameBack), count(f.Matured))
		}
		t.Rows = append(t.Rows, []cell{text(failureName(f)), number(count(f.N)), number(count(f.Jobs)), number(percent(f.Share)),
			number(percent(f.Cumulative)), number(next), number(between(f.NextLow, f.NextHigh)), number(back)})
	}
	s.Table = t.cut(r.About.yearCommand("plumbline query failures --set by=code"))
	var err error
	s.Chart, err = paretoChart(chart{ID: chartID("repeats", "codes"), Alt: "Failure codes by number of attempts",
		Title: fmt.Sprintf("%s: %s of the attempts that did not complete", failureName(first), percent(first.Share))}, pattern)
	return s, err
}

func failureName(f quality.Failure) string {
	if f.Name == nil {
		return "no code recorded"
	}
	if f.Usual != nil {
		return *f.Name + ", " + *f.Usual
	}
	return *f.Name
}

// changeSection ranks what was different when the next attempt was made.
func (r Review) changeSection() section {
	s := section{ID: "changes", Heading: "What was different when it worked, over twelve months"}
	t := &table{Caption: "Changed between an attempt that did not complete and the next one", Columns: append(append(words("Changed"),
		columns(true, "Times", "Completed then", "Share", "95 % interval", "Share when it stayed the same", "q")...), words("Call")...)}
	different := 0
	for _, c := range r.Failures.Changes {
		stayed := "–"
		if c.UnchangedShare != nil {
			stayed = fmt.Sprintf("%s (%s of %s)", percent(*c.UnchangedShare), count(c.UnchangedCompleted), count(c.UnchangedN))
		}
		call := text("")
		if c.Q < 0.05 {
			call = marked("▲ goes with the result", "signal")
			different++
		}
		t.Rows = append(t.Rows, []cell{text(plain(c.What)), number(count(c.N)), number(count(c.Completed)), number(percent(c.Share)),
			number(between(&c.Low, &c.High)), number(stayed), number(probability(&c.Q)), call})
	}
	if len(t.Rows) == 0 {
		s.Says = []string{"No attempt that did not complete was followed by another one."}
		return s
	}
	s.Table = t.cut(r.About.yearCommand("plumbline changes"))
	s.Says = []string{fmt.Sprintf("Each row compares pairs in which something changed with pairs in which it did not. %s (q < 0.05). "+
		"It shows what went together, not what caused what: people change several things at once.",
		map[bool]string{true: "None of them is told from chance", false: fmt.Sprintf("%d of %d are told from chance", different,
			len(r.Failures.Changes))}[different == 0])}
	s.Notes = []string{commandNote(r.About.yearCommand("plumbline changes"))}
	return s
}

// waitSection tells whether the next attempt works better at once or later.
func (r Review) waitSection() section {
	s := section{ID: "waits", Heading: "How long until the next attempt, over twelve months"}
	if len(r.Failures.Waits) == 0 {
		s.Says = []string{"No attempt that did not complete was followed by another one."}
		return s
	}
	t := &table{Caption: "From the end of an attempt that did not complete to the start of the next one", Columns: append(words("Time between"),
		columns(true, "Pairs", "Middle time, min", "Next attempt completed", "95 % interval")...)}
	var withoutEnd int64
	for _, w := range r.Failures.Waits {
		t.Rows = append(t.Rows, []cell{text(w.Wait), number(count(w.N)), number(strings.Replace(fmt.Sprintf("%.0f", w.MedianMin), "-", "−", 1)),
			number(fmt.Sprintf("%s (%s of %s)", percent(w.Share), count(w.Completed), count(w.N))), number(between(&w.Low, &w.High))})
		withoutEnd += w.WithoutEnd
	}
	s.Table = t
	s.Says = []string{"Where the intervals overlap widely, no difference is shown. What was done in the meantime counts, and the time alone does not say it."}
	if withoutEnd > 0 {
		s.Says = append(s.Says, fmt.Sprintf("%s no end on record: the time is counted from the start.",
			sentence(several(withoutEnd, "of the first attempts has", "of the first attempts have"))))
	}
	s.Notes = []string{commandNote(r.About.yearCommand("plumbline query failure_waits"))}
	return s
}

// clockSection tells whether the time of day or the weekday matters.
func (r Review) clockSection() section {
	s := section{ID: "clock", Heading: "Hour and weekday"}
	for _, clock := range []struct {
		name string
		quality.Clock
	}{{"hour of the day", r.Failures.Hours}, {"day of the week", r.Failures.Weekdays}} {
		if len(clock.Slots) == 0 {
			continue
		}
		s.Says = append(s.Says, clockSays(clock.name, clock.Clock))
		t := &table{Caption: "Attempts that did not complete by " + clock.name, Columns: append(words(sentence(clock.name)),
			columns(true, "Rate", "Not completed", "Attempts", "95 % interval")...)}
		for _, slot := range clock.Slots {
			t.Rows = append(t.Rows, []cell{text(slot.Name), number(percent(slot.Rate)), number(count(slot.Count)), number(count(slot.N)),
				number(between(&slot.Low, &slot.High))})
		}
		s.More = append(s.More, block{Heading: "By " + clock.name, Table: t, Fold: true})
	}
	if len(s.Says) == 0 {
		s.Says = []string{"No attempt is on record."}
	}
	return s
}

func clockSays(name string, clock quality.Clock) string {
	if !clock.Test.Defined {
		return "By " + name + " there is too little to compare."
	}
	said := fmt.Sprintf("By %s the rate is no more uneven than chance gives (chi-squared %.1f on %d, p %s).", name,
		clock.Test.Statistic, clock.Test.DF, probability(&clock.Test.P))
	if clock.Test.P < 0.05 {
		said = fmt.Sprintf("By %s the rate is more uneven than chance gives (chi-squared %.1f on %d, p %s): the kind of work can "+
			"differ by the clock too.", name, clock.Test.Statistic, clock.Test.DF, probability(&clock.Test.P))
	}
	if clock.SmallestExpected < 5 {
		said += " The p is rough, for some hours or days hold few attempts."
	}
	return said
}
