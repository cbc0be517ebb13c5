package answer

import (
	"fmt"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// FailureCodes is why attempts did not complete, the commonest code first, and what came of them.
func FailureCodes(a About, pattern quality.FailurePattern) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "codes", Title: "Why attempts did not complete, over twelve months"}
	if pattern.N == 0 {
		e.Says = []string{"No attempt of these months failed or was broken off."}
		return e
	}
	first := pattern.Failures[0]
	e.Says = []string{fmt.Sprintf("%s did not complete. The commonest: %s, %s of them (%s).", say.Sentence(say.Several(pattern.N, "attempt", "attempts")),
		failureName(first), say.Count(first.N), say.Percent(first.Share))}
	if pattern.Base.N > 0 {
		e.Says = append(e.Says, fmt.Sprintf("Of the jobs without any failed attempt %s came back. A code that comes back clearly more often is worth a look at its "+
			"cause: p is Fisher's exact test against these jobs.", say.OutOf(pattern.Base.Count, pattern.Base.N)))
	}
	command := a.yearCommand("plumbline query failures --set by=code")
	e.Table = &exhibit.Table{Caption: "Failure codes, the commonest first", All: command, Ordered: true, Columns: failureColumns(),
		Rows: exhibit.Each(pattern.Failures, failureRow)}
	e.Drawing = &exhibit.Drawing{Title: fmt.Sprintf("%s: %s of the attempts that did not complete", failureName(first), say.Percent(first.Share)),
		Alt: "Bars: attempts that did not complete, the commonest code first", First: 12, Native: true,
		Up: exhibit.Axis{Column: "code", Scale: exhibit.Names}, Across: exhibit.Axis{Type: exhibit.Count, Name: "attempts"},
		Label: func(i int) string {
			f := pattern.Failures[i]
			return fmt.Sprintf("%s: %s, %s, with all above %s", failureName(f), say.Several(f.N, "attempt", "attempts"), say.Percent(f.Share), say.Percent(f.Cumulative))
		},
		Series: []exhibit.Series{{Column: "attempts", Look: exhibit.Bars}}}
	e.Notes = []string{commandNote(command)}
	e.Sheet = exhibit.Sheet{Name: "Failure codes", Keep: 1, Below: true, About: "Why attempts did not complete, and what came of them"}
	return e
}

func failureColumns() []exhibit.Column {
	next := share{"completed_next", "retried", "next_rate", "next_low", "next_high", "Completed next", "Tried again", "Completed at the next", "Next", exhibit.Figure}
	back := share{"came_back", "matured", "back_rate", "back_low", "back_high", "Came back", "Jobs followed", "Jobs that came back", "Back", exhibit.Detail}
	backs := back.columns()
	backs[3].Rank, backs[4].Rank = exhibit.Depth, exhibit.Depth
	return joined(exhibit.Column{Name: "code"}, exhibit.Column{Name: "usual_text", Heading: "Usual text", Rank: exhibit.Detail},
		counts(exhibit.Answer, [2]string{"attempts", "Attempts"}),
		exhibit.Column{Name: "share", Type: exhibit.Share, Formula: "{attempts}/SUM({attempts:})"},
		exhibit.Column{Name: "cumulative", Heading: "With all above", Type: exhibit.Share, Formula: "SUM({share..})", Rank: exhibit.Detail},
		counts(exhibit.Detail, [2]string{"jobs", "Jobs"}), next.columns(), backs,
		exhibit.Column{Name: "p", Heading: "p of coming back", Type: exhibit.Probability, Rank: exhibit.Detail})
}

func failureRow(f quality.Failure) []any {
	name := any("none recorded")
	if f.Name != nil {
		name = *f.Name
	}
	return []any{name, f.Usual, f.N, f.Share, f.Cumulative, f.Jobs, f.CompletedNext, f.Retried, f.NextShare, f.NextLow, f.NextHigh, f.CameBack, f.Matured,
		f.BackShare, f.BackLow, f.BackHigh, f.BackP}
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

// Changed ranks what was different when the next attempt was made.
func Changed(a About, changes []quality.Change) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "changes", Title: "What was different when it worked, over twelve months"}
	if len(changes) == 0 {
		e.Says = []string{"No attempt that did not complete was followed by another one."}
		return e
	}
	told := int64(0)
	for _, c := range changes {
		if c.Q < 0.05 {
			told++
		}
	}
	found := say.Several(told, "is", "are") + " told from chance"
	if told == 0 {
		found = "None is told from chance"
	}
	e.Says = []string{fmt.Sprintf("Each row compares pairs of attempts between which something changed with pairs between which it did not. Of the %s %s (q < 0.05). "+
		"It shows what went together, not what caused what: people change several things at once.", say.Several(int64(len(changes)), "row", "rows"),
		lower(found))}
	command := a.yearCommand("plumbline changes")
	own := share{count: "completed", n: "n", rate: "rate", low: "low", high: "high", countHeading: "Completed then", nHeading: "Times"}
	same := share{count: "unchanged_completed", n: "unchanged_n", rate: "unchanged_rate", countHeading: "Completed when it stayed", nHeading: "Times it stayed",
		rateHeading: "Rate when it stayed", rank: exhibit.Figure}
	e.Table = &exhibit.Table{Caption: "Changed between an attempt that did not complete and the next one", All: command,
		Columns: joined(exhibit.Column{Name: "changed", Type: exhibit.Word}, own.columns(), same.columns(),
			exhibit.Column{Name: "p", Type: exhibit.Probability, Rank: exhibit.Depth}, exhibit.Column{Name: "q", Type: exhibit.Probability}, exhibit.Column{Name: "call"}),
		Rows: exhibit.Each(changes, func(c quality.Change) []any {
			call := exhibit.Cell{}
			if c.Q < 0.05 {
				call = exhibit.Cell{Value: "goes with the result", Mark: exhibit.Signal}
			}
			return []any{c.What, c.Completed, c.N, c.Share, c.Low, c.High, c.UnchangedCompleted, c.UnchangedN, c.UnchangedShare, c.P, c.Q, call}
		})}
	e.Notes = []string{commandNote(command)}
	e.Sheet = exhibit.Sheet{Name: "What changed", Keep: 1, About: "What was different between an attempt that did not complete and the next one"}
	return e
}

// lower takes the capital from words that go on with a sentence.
func lower(words string) string {
	if words != "" && words[0] == 'N' {
		return "n" + words[1:]
	}
	return words
}

// Waits tells whether the next attempt works better at once or later.
func Waits(a About, waits []quality.Wait) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "waits", Title: "How long until the next attempt, over twelve months"}
	if len(waits) == 0 {
		e.Says = []string{"No attempt that did not complete was followed by another one."}
		return e
	}
	e.Says = []string{"What was done in the meantime counts, and the time alone does not say it: where the intervals overlap widely, nothing is told apart."}
	withoutEnd := int64(0)
	for _, w := range waits {
		withoutEnd += w.WithoutEnd
	}
	if withoutEnd > 0 {
		e.Says = append(e.Says, fmt.Sprintf("%s no end on record: the time is counted from the start.",
			say.Sentence(say.Several(withoutEnd, "of the first attempts has", "of the first attempts have"))))
	}
	command := a.yearCommand("plumbline query failure_waits")
	own := usualShare
	own.countHeading, own.nHeading, own.rateHeading = "Next attempt completed", "Pairs", "Rate"
	e.Table = &exhibit.Table{Caption: "From the end of an attempt that did not complete to the start of the next one", All: command, Ordered: true,
		Columns: joined(exhibit.Column{Name: "wait", Heading: "Time between"}, own.columns(), exhibit.Column{Name: "median_min", Heading: "Middle time, min",
			Type: exhibit.Hours, Rank: exhibit.Detail}),
		Rows: exhibit.Each(waits, func(w quality.Wait) []any {
			return []any{w.Wait, w.Completed, w.N, w.Share, w.Low, w.High, w.MedianMin}
		})}
	e.Notes = []string{commandNote(command)}
	e.Sheet = exhibit.Sheet{Name: "Waits", Keep: 1, About: "Whether the next attempt works better at once or later"}
	return e
}

// Clock tells whether the time of day or the weekday matters.
func Clock(hours, weekdays quality.Clock) exhibit.Exhibit {
	e := exhibit.Exhibit{Name: "clock", Title: "Hour and weekday"}
	for _, clock := range []struct {
		name, sheet string
		quality.Clock
	}{{"hour of the day", "Hours of the day", hours}, {"day of the week", "Days of the week", weekdays}} {
		if len(clock.Slots) == 0 {
			continue
		}
		e.Says = append(e.Says, clockSays(clock.name, clock.Clock))
		own := usualShare
		own.countHeading, own.nHeading = "Not completed", "Attempts"
		e.Parts = append(e.Parts, exhibit.Exhibit{Title: "By " + clock.name, Folds: true, Name: "clock-" + clock.name[:3],
			Sheet: exhibit.Sheet{Name: clock.sheet, Keep: 1, About: "Attempts that did not complete by " + clock.name},
			Table: &exhibit.Table{Caption: "Attempts that did not complete by " + clock.name, Ordered: true,
				Columns: joined(exhibit.Column{Name: "slot", Heading: say.Sentence(clock.name)}, own.columns()),
				Rows:    exhibit.Each(clock.Slots, func(s quality.ClockSlot) []any { return []any{s.Name, s.Count, s.N, s.Rate, s.Low, s.High} })}})
	}
	if len(e.Says) == 0 {
		e.Says = []string{"No attempt is on record."}
	}
	return e
}

func clockSays(name string, clock quality.Clock) string {
	if !clock.Test.Defined {
		return "By " + name + " there is too little to compare."
	}
	finding, and := "no more uneven than chance gives", ""
	if clock.Test.P < 0.05 {
		finding, and = "more uneven than chance gives", ": the kind of work can differ by the clock too"
	}
	said := fmt.Sprintf("By %s the rate is %s (chi-squared %.1f on %d, p %s)%s.", name, finding, clock.Test.Statistic, clock.Test.DF, say.Probability(&clock.Test.P), and)
	if clock.SmallestExpected < 5 {
		said += " The p is rough, for some hours or days hold few attempts."
	}
	return said
}
