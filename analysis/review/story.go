package review

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/answer"
	"plumbline/analysis/exhibit/page"
	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// A storyBody is what a vehicle's page shows besides its findings: each visit with its events.
type storyBody struct {
	Visits []visitBlock
	Trace  string
}

// A visitBlock is one visit.
type visitBlock struct {
	Heading string
	Gap     string // how long the vehicle had been away
	Drawn   *timeline
	Shows   string // what the drawing shows
	Events  []eventLine
}

// An eventLine is one thing that happened, with a sign of its kind and a word for how it went.
type eventLine struct {
	When    string
	Kind    string
	Sign    string
	Tone    string
	Text    string
	Details []string
}

// signs tell the kinds of event apart without color.
var signs = map[quality.EventKind]string{
	quality.OpenedEvent: "▶", quality.ClosedEvent: "■", quality.GlassEvent: "▭", quality.ScanEvent: "◎",
	quality.AttemptEvent: "●", quality.RoadTestEvent: "⇄", quality.DocumentEvent: "▤", quality.FindingEvent: "▲",
	quality.DecisionEvent: "✓",
}

func (r Review) vehiclePage(v Vehicle) (page.Page, error) {
	p, err := storyPage(v.Story, v.Shop+"/"+v.JobNo)
	p.File = "vehicles/" + v.Page
	if len(v.Findings) > 0 {
		p.Sections = append(p.Sections, page.Of(answer.Findings(r.About, "findings", "Findings of "+say.Month(r.About.Month), v.Findings, kindsOf(v.Findings), r.linker()))...)
	}
	return p, err
}

func kindsOf(findings []quality.Finding) []string {
	var kinds []string
	for _, f := range findings {
		if !slices.Contains(kinds, f.Kind) {
			kinds = append(kinds, f.Kind)
		}
	}
	return kinds
}

// storyPage tells a vehicle's story, visit by visit.
func storyPage(s quality.Story, job string) (page.Page, error) {
	p := page.Page{Title: vehicleTitle(s, job)}
	body := storyBody{Trace: "plumbline trace " + answer.Argument(job)}
	if s.WellFormed {
		body.Trace = "plumbline trace " + s.VIN
	}
	for i, visit := range s.Visits {
		block := visitBlock{Heading: fmt.Sprintf("%s/%s, %s", visit.Shop, visit.JobNo, say.Plain(visit.Reason))}
		if i > 0 && s.Visits[i-1].ClosedAt != nil {
			days := visit.OpenedAt.Sub(*s.Visits[i-1].ClosedAt).Hours() / 24
			block.Gap = fmt.Sprintf("%.0f days after the visit before was closed", days)
		}
		var events []quality.StoryEvent
		for _, event := range s.Events {
			if event.Shop == visit.Shop && event.JobNo == visit.JobNo {
				events = append(events, event)
				block.Events = append(block.Events, line(event))
			}
		}
		block.Drawn, block.Shows = drawVisit(visit, events), visitShows(visit, events)
		body.Visits = append(body.Visits, block)
	}
	visits := int64(len(s.Visits))
	p.Lead = []string{fmt.Sprintf("Everything on record about this vehicle, in time order: %s.", say.Several(visits, "visit", "visits"))}
	if !s.WellFormed {
		p.Lead = []string{"The vehicle number is missing or malformed, so other visits of this vehicle cannot be found."}
	}
	markup, err := markupOf("vehicle.html", body)
	p.Sections = []page.Section{{Markup: markup}}
	return p, err
}

// visitShows sums a visit up, as the title of its drawing.
func visitShows(visit quality.StoryVisit, events []quality.StoryEvent) string {
	var attempts, missed int64
	for _, e := range events {
		if e.Kind == quality.AttemptEvent {
			attempts++
			if e.Tone == quality.Bad {
				missed++
			}
		}
	}
	said := "No calibration"
	if attempts > 0 {
		said = fmt.Sprintf("%s, %s", say.Several(attempts, "attempt", "attempts"), say.NoneOr(missed, "failure", "failures"))
	}
	if first, last := span(visit, events); last.After(first) {
		said += fmt.Sprintf(", %.1f hours from first to last", last.Sub(first).Hours())
	}
	return said
}

func vehicleTitle(s quality.Story, job string) string {
	var parts []string
	if s.ModelYear != nil {
		parts = append(parts, fmt.Sprint(*s.ModelYear))
	}
	for _, name := range []*string{s.Make, s.Model} {
		if name != nil {
			parts = append(parts, *name)
		}
	}
	if s.VIN != "" {
		parts = append(parts, s.VIN)
	} else {
		parts = append(parts, job)
	}
	return strings.Join(parts, " ")
}

// line puts an event into the words of the page; a finding carries its own name here.
func line(e quality.StoryEvent) eventLine {
	l := eventLine{When: say.Moment(&e.At), Kind: say.Plain(string(e.Kind)), Sign: signs[e.Kind], Tone: string(e.Tone), Text: e.Text,
		Details: e.Details}
	if e.Tone == quality.Bad && e.Kind != quality.FindingEvent {
		l.Sign = "✕"
	}
	switch {
	case !e.Dated:
		l.When = "no time on record"
	case e.DateOnly:
		l.When = e.At.Format("2006-01-02")
	case e.Until != nil && e.Until.After(e.At):
		l.When += e.Until.Format("–15:04")
	}
	if e.Kind == quality.FindingEvent && e.Finding != nil {
		l.Text = answer.FindingName(*e.Finding) + ", " + e.Finding.Severity + " severity"
		if e.Finding.Detail != nil {
			l.Text += ": " + *e.Finding.Detail
		}
		if decided := answer.RulingWords(e.Finding.Decision, e.Finding.Ruling); decided != "" {
			l.Text += " (" + decided + ")"
		}
	}
	return l
}
