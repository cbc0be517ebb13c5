package draft

import (
	"regexp"
	"slices"

	"plumbline/analysis/layout"
)

// This file takes columns whose names say little by what their values say beside those of the columns taken.

// takeByValues completes calibrations, where columns tell that there are some.
func (d *drafting) takeByValues() {
	if d.found("calibrations", "system", "") != nil || d.found("calibrations", "attempt_no", "") != nil {
		if d.found("calibrations", "outcome", "") == nil {
			d.takeOutcome()
		}
		d.takeEnd()
	}
}

// takeOutcome takes the one column that reads as outcomes. Of two it is open which is meant.
func (d *drafting) takeOutcome() {
	at := -1
	for i := range d.header {
		isTaken := slices.ContainsFunc(d.taken, func(g guess) bool { return g.at == i && g.score >= sure })
		if d.header[i] == "" || isTaken || !d.readsAsOutcomes(i) {
			continue
		}
		if at >= 0 {
			return
		}
		at = i
	}
	if at >= 0 {
		d.retake(guess{at, "calibrations", "outcome", "", "", 0.75})
	}
}

// readsAsOutcomes says that most of a column's values are known outcomes, of more than one meaning: one word in all rows
// tells nothing, and yes and no answer any question.
func (d *drafting) readsAsOutcomes(at int) bool {
	outcome := *layout.KindNamed("calibrations").Column("outcome")
	if d.columns[at].isMany || share(d.values[at], func(value string) bool { return wordFor(outcome, value) != "" }) < 0.6 {
		return false
	}
	var meanings []string
	for _, text := range d.columns[at].texts {
		if !slices.Contains(spoken.YesNo, plain(text)) {
			meanings = append(meanings, wordFor(outcome, text))
		}
	}
	return len(distinct(meanings)) > 1
}

// retake takes a column for what the guess says, in place of what was less sure.
func (d *drafting) retake(g guess) {
	d.taken = slices.DeleteFunc(d.taken, func(other guess) bool {
		return other.at == g.at || other.kind == g.kind && other.field == g.field && other.place == g.place
	})
	d.taken = append(d.taken, g)
}

// takeEnd takes, in a log of attempts, the moment of being finished for the attempt's and not for the job's, and no end that
// lies before its start.
func (d *drafting) takeEnd() {
	start := d.found("calibrations", "started_at", "")
	if start == nil {
		return
	}
	from := start.at
	closed := d.found("jobs", "closed_at", "")
	if closed != nil && d.found("calibrations", "ended_at", "") == nil && d.isLog() && d.found("jobs", "reason", "") == nil {
		d.retake(guess{closed.at, "calibrations", "ended_at", "", "", 0.75})
	}
	if end := d.found("calibrations", "ended_at", ""); end != nil && d.isBefore(end.at, from) {
		at := end.at
		d.taken = slices.DeleteFunc(d.taken, func(g guess) bool { return g.at == at })
	}
}

var yearFirst = regexp.MustCompile(`^\d{4}-\d\d-\d\d`)

// isBefore says that a tenth or more of a column's moments lie before another's, as far as their texts tell: those with the
// year first and of one length order as the moments do.
func (d *drafting) isBefore(end, start int) bool {
	compared, before := 0, 0
	for _, row := range d.kept {
		one, other := row.cells[start], row.cells[end]
		if len(one) == len(other) && yearFirst.MatchString(one) && yearFirst.MatchString(other) {
			compared++
			if other < one {
				before++
			}
		}
	}
	return before > 0 && 10*before >= compared
}
