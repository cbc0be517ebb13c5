package review

import (
	"time"

	"plumbline/analysis/quality"
)

// A timeline is the drawing of one visit: a lane a kind of event, from the vehicle's arrival to its leaving.
type timeline struct {
	Label         string // for those who cannot see it
	Width, Height int
	Lanes         []lane
	Marks         []mark
	Ticks         []tick
}

type lane struct {
	Name string
	Y    int
}

// A mark is one event: a bar where its end is known, else a dot. One that went wrong is hollow and crossed, so that
// print and color-blind eyes tell it too.
type mark struct {
	X, Y, Width int
	Bar, Bad    bool
	Title       string
}

type tick struct {
	X     int
	Label string
}

// Measures of the drawing, in its own units.
const (
	timelineWidth = 760
	timelineLeft  = 110 // room for the lanes' names
	timelineRight = 50  // and for half of the last hour
	laneHeight    = 26
	tickCount     = 6
)

// laneOrder are the kinds that are drawn, and the names of their lanes.
var laneOrder = []struct {
	kind quality.EventKind
	name string
}{
	{quality.GlassEvent, "glass"}, {quality.ScanEvent, "scans"}, {quality.AttemptEvent, "calibration"},
	{quality.RoadTestEvent, "road test"}, {quality.DocumentEvent, "documents"},
}

// drawVisit draws a visit, or nothing where fewer than two moments of it are known.
func drawVisit(visit quality.StoryVisit, events []quality.StoryEvent) *timeline {
	first, last := span(visit, events)
	if !last.After(first) {
		return nil
	}
	t := &timeline{Label: "Timeline of " + visit.Shop + "/" + visit.JobNo, Width: timelineWidth}
	place := func(at time.Time) int {
		share := float64(at.Sub(first)) / float64(last.Sub(first))
		return timelineLeft + int(share*float64(timelineWidth-timelineLeft-timelineRight))
	}
	for _, row := range laneOrder {
		marks := t.marks(row.kind, events, place, laneHeight*(len(t.Lanes)+1))
		if len(marks) > 0 {
			t.Lanes = append(t.Lanes, lane{row.name, laneHeight * (len(t.Lanes) + 1)})
			t.Marks = append(t.Marks, marks...)
		}
	}
	if len(t.Lanes) == 0 {
		return nil
	}
	for _, at := range ticks(first, last) {
		t.Ticks = append(t.Ticks, tick{place(at), tickLabel(at, last.Sub(first))})
	}
	t.Height = laneHeight*(len(t.Lanes)+1) + 24
	return t
}

func (t *timeline) marks(kind quality.EventKind, events []quality.StoryEvent, place func(time.Time) int, y int) []mark {
	var marks []mark
	for _, e := range events {
		if e.Kind != kind || !e.Dated || e.DateOnly {
			continue // what has no hour has no place on the line
		}
		m := mark{X: place(e.At), Y: y, Bad: e.Tone == quality.Bad, Title: e.At.Format("15:04 ") + e.Text}
		if e.Until != nil && e.Until.After(e.At) {
			m.Bar, m.Width = true, max(place(*e.Until)-m.X, 5)
		}
		marks = append(marks, m)
	}
	return marks
}

// span reaches from the first to the last moment of a visit that is known to the hour.
func span(visit quality.StoryVisit, events []quality.StoryEvent) (first, last time.Time) {
	take := func(at time.Time) {
		if first.IsZero() || at.Before(first) {
			first = at
		}
		if at.After(last) {
			last = at
		}
	}
	if !visit.OpenedOnDate {
		take(visit.OpenedAt)
	}
	if visit.ClosedAt != nil && !visit.ClosedOnDate {
		take(*visit.ClosedAt)
	}
	for _, e := range events {
		if e.Dated && !e.DateOnly && e.Kind != quality.DecisionEvent {
			take(e.At)
			if e.Until != nil {
				take(*e.Until)
			}
		}
	}
	return first, last
}

// tickSteps are the distances that a reader counts in.
var tickSteps = []time.Duration{15 * time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour, 3 * time.Hour, 6 * time.Hour, 12 * time.Hour, 24 * time.Hour,
	2 * 24 * time.Hour, 7 * 24 * time.Hour, 14 * 24 * time.Hour, 28 * 24 * time.Hour, 91 * 24 * time.Hour, 364 * 24 * time.Hour}

// ticks are the round moments between two, at most tickCount of them.
func ticks(first, last time.Time) []time.Time {
	step := tickSteps[len(tickSteps)-1]
	for _, one := range tickSteps {
		if last.Sub(first)/one < tickCount {
			step = one
			break
		}
	}
	midnight := time.Date(first.Year(), first.Month(), first.Day(), 0, 0, 0, 0, first.Location())
	var round []time.Time
	for at := midnight; !at.After(last); at = at.Add(step) {
		if !at.Before(first) && len(round) < tickCount {
			round = append(round, at)
		}
	}
	return round
}

func tickLabel(at time.Time, whole time.Duration) string {
	switch {
	case whole > 4*24*time.Hour:
		return at.Format("2 Jan")
	case whole > 20*time.Hour:
		return at.Format("2 Jan 15:04")
	}
	return at.Format("15:04")
}
