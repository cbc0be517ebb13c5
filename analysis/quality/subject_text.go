package quality

import (
	"fmt"
	"time"
)

// Said is the event in words, one line.
func (e SubjectEvent) Said() string {
	text := orEmpty(e.Text)
	switch e.Kind {
	case "check":
		due := ""
		if e.DueAt != nil {
			due = "due again " + e.DueAt.Format("2006-01-02")
		}
		return phrase(", ", "check "+orEmpty(e.Outcome), due) + with(": ", e.Text)
	case "action":
		return phrase(", ", "done: "+text, with("by ", e.By))
	case "software":
		return "software " + text + " first used"
	}
	return phrase(", ", phrase(" ", words(orEmpty(e.System)), orEmpty(e.Position), orEmpty(e.Outcome))+with(": ", e.Text), with("by ", e.By))
}

// Next says what came after an attempt that did not complete; empty for any other event.
func (e SubjectEvent) Next() string {
	switch {
	case e.Kind != "attempt":
		return ""
	case e.NextAt == nil:
		return "no further attempt"
	}
	changed := "nothing on record changed"
	if e.Changed != nil {
		changed = "changed: " + words(*e.Changed)
	}
	return fmt.Sprintf("next %s, started %s later, %s", orEmpty(e.NextOutcome), span(e.NextAt.Sub(e.At)), changed)
}

// span writes a time in its two greatest units.
func span(d time.Duration) string {
	minutes := int64(d.Round(time.Minute) / time.Minute)
	switch {
	case minutes < 60:
		return fmt.Sprintf("%d min", minutes)
	case minutes < 24*60:
		return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
	}
	return fmt.Sprintf("%d d %d h", minutes/60/24, minutes/60%24)
}

// Tone says at a glance how it went.
func (e SubjectEvent) Tone() Tone {
	switch orEmpty(e.Outcome) {
	case "passed":
		return Good
	case "failed", "aborted":
		return Bad
	}
	return Neutral
}
