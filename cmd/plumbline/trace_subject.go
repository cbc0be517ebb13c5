package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"plumbline/analysis/quality"
)

// subjectRow is one event of a story as it is printed in csv and json.
type subjectRow struct {
	At      time.Time
	Shop    string
	JobNo   *string
	Kind    string
	Tone    string
	Text    string
	Details string
}

// subjectOf cuts equipment=SHOP/NAME; a VIN or job has no such word before a sign.
func subjectOf(key string) (kind, name string, isSubject bool) {
	kind, name, cut := strings.Cut(key, "=")
	kind, err := wordIn(quality.SubjectKinds, kind)
	return kind, name, cut && err == nil
}

func subjectRows(story quality.SubjectStory) grid {
	rows := make([]subjectRow, len(story.Events))
	for i, e := range story.Events {
		rows[i] = subjectRow{e.At, e.Shop, e.JobNo, e.Kind, string(e.Tone()), e.Said(), e.Next()}
	}
	return gridOf(rows)
}

// tellSubject prints a story: the months, what failed and what worked next, how the values lay, and the events.
func (a *app) tellSubject(story quality.SubjectStory, format formatFlag) error {
	if format.word != "table" {
		return format.print(a, subjectRows(story))
	}
	sum := story.Sum()
	told, inside := outsideReadings(story.Readings)
	fmt.Fprintf(a.out, "%s %s: %s, %d not completed; %s, %d not first pass; %s with a tolerance, %d outside\n",
		story.Kind, plain(story.Name), counted(sum.Attempts, "attempt"), sum.NotCompleted, counted(sum.Tasks, "task"), sum.NotFirstPass,
		counted(sum.Readings, "value"), sum.Outside)
	for _, part := range []struct {
		title string
		rows  grid
	}{
		{"by month", gridOf(story.Months)},
		{"why attempts did not complete, and what worked next (what went together, not what caused what)", gridOf(story.Failures)},
		{"measured values in half widths of their tolerance from its middle: beyond -1 and 1 is outside" + inside, gridOf(told)},
		{"checks, actions, software, and attempts that did not complete", subjectRows(story)},
	} {
		if len(part.rows.rows) == 0 {
			continue
		}
		fmt.Fprintf(a.out, "\n%s\n", part.title)
		if err := format.print(a, part.rows); err != nil {
			return err
		}
	}
	return nil
}

// outsideReadings are those of quantities that lay outside their tolerance at some time; the others are named.
func outsideReadings(all []quality.SubjectReading) (outside []quality.SubjectReading, others string) {
	was := map[string]bool{}
	for _, r := range all {
		was[r.Quantity] = was[r.Quantity] || r.Outside > 0
	}
	var inside []string
	for _, r := range all {
		if was[r.Quantity] {
			outside = append(outside, r)
		} else if word := strings.ReplaceAll(r.Quantity, "_", " "); !slices.Contains(inside, word) {
			inside = append(inside, word)
		}
	}
	if len(inside) > 0 {
		others = "\n(never outside: " + strings.Join(inside, ", ") + ")"
	}
	return outside, others
}
