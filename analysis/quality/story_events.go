package quality

import (
	"cmp"
	"slices"
	"time"
)

// eventOrder is the order of events at one moment.
var eventOrder = []EventKind{OpenedEvent, GlassEvent, ScanEvent, AttemptEvent, RoadTestEvent, DocumentEvent, FindingEvent,
	ClosedEvent, DecisionEvent}

// job names a visit among others.
type job struct{ shop, jobNo string }

// attemptKey names an attempt.
type attemptKey struct {
	job
	system, position string
	attemptNo        int64
}

// tell puts the records together and in order of time.
func (s *Story) tell(r records) {
	r.fit(s.Visits)
	ends, closings := map[job]time.Time{}, map[job]time.Time{}
	for i := range s.Visits {
		visit := &s.Visits[i]
		named := job{visit.Shop, visit.JobNo}
		ends[named] = visit.OpenedAt
		s.add(StoryEvent{At: visit.OpenedAt, Dated: true, DateOnly: visit.OpenedOnDate, Shop: visit.Shop, JobNo: visit.JobNo,
			Kind: OpenedEvent, Tone: Neutral, Text: openedText(visit), Details: readingTexts(visit.Readings), Visit: visit})
		if visit.ClosedAt != nil {
			ends[named], closings[named] = *visit.ClosedAt, *visit.ClosedAt
			s.add(StoryEvent{At: *visit.ClosedAt, Dated: true, DateOnly: visit.ClosedOnDate, Shop: visit.Shop,
				JobNo: visit.JobNo, Kind: ClosedEvent, Tone: Neutral, Text: "vehicle out", Visit: visit})
		}
	}
	s.addWork(r)
	s.addPapers(r, ends)
	slices.SortStableFunc(s.Events, func(a, b StoryEvent) int {
		return cmp.Or(a.place(closings).Compare(b.place(closings)),
			cmp.Compare(slices.Index(eventOrder, a.Kind), slices.Index(eventOrder, b.Kind)))
	})
}

// place is the moment by which an event stands among the others. A date alone has no order within its day: it stands
// after the timed events of that day, but before its visit's closing, as an event without any time does. Only the
// opening stays first, for nothing of a visit comes before it.
func (e StoryEvent) place(closings map[job]time.Time) time.Time {
	if !e.Dated || !e.DateOnly || e.Kind == OpenedEvent {
		return e.At
	}
	last := time.Date(e.At.Year(), e.At.Month(), e.At.Day(), 23, 59, 59, 0, e.At.Location()) // a closing by date is there too
	if closed, isClosed := closings[job{e.Shop, e.JobNo}]; isClosed && closed.After(e.At) && closed.Before(last) {
		return closed
	}
	return last
}

func (s *Story) add(event StoryEvent) { s.Events = append(s.Events, event) }

// fit hangs measured values and changes on their attempts and visits, and faults on their scans.
func (r *records) fit(visits []StoryVisit) {
	byJob := map[job]*StoryVisit{}
	for i := range visits {
		byJob[job{visits[i].Shop, visits[i].JobNo}] = &visits[i]
	}
	byAttempt := map[attemptKey]*StoryAttempt{}
	for i := range r.attempts {
		a := &r.attempts[i]
		byAttempt[attemptKey{job{a.Shop, a.JobNo}, a.System, orEmpty(a.Position), a.AttemptNo}] = a
	}
	for _, reading := range r.readings {
		if reading.System == nil {
			visit := byJob[job{reading.Shop, reading.JobNo}]
			visit.Readings = append(visit.Readings, reading)
			continue
		}
		a := byAttempt[attemptKey{job{reading.Shop, reading.JobNo}, *reading.System, orEmpty(reading.Position),
			*reading.AttemptNo}]
		a.Readings = append(a.Readings, reading)
	}
	for _, c := range r.changes {
		a := byAttempt[attemptKey{job{c.Shop, c.JobNo}, c.System, orEmpty(c.Position), c.AttemptNo}]
		a.Changed = append(a.Changed, c)
	}
	r.fitFaults()
}

func (r *records) fitFaults() {
	type scanKey struct {
		job
		scanNo int64
	}
	byScan := map[scanKey]*StoryScan{}
	for i := range r.scans {
		scan := &r.scans[i]
		byScan[scanKey{job{scan.Shop, scan.JobNo}, scan.ScanNo}] = scan
	}
	for _, fault := range r.faults {
		scan := byScan[scanKey{job{fault.Shop, fault.JobNo}, fault.ScanNo}]
		scan.Faults = append(scan.Faults, fault)
	}
}

// addWork adds what was done on the vehicle.
func (s *Story) addWork(r records) {
	for i := range r.scans {
		scan := &r.scans[i]
		s.add(StoryEvent{At: scan.ScannedAt, Dated: true, DateOnly: scan.ScannedOnDate, Shop: scan.Shop, JobNo: scan.JobNo,
			Kind: ScanEvent, Tone: scanTone(scan), Text: scanText(scan), Details: faultTexts(scan.Faults), Scan: scan})
	}
	for i := range r.attempts {
		a := &r.attempts[i]
		s.add(StoryEvent{At: a.StartedAt, Until: a.EndedAt, Dated: true, DateOnly: a.StartedOnDate, Shop: a.Shop,
			JobNo: a.JobNo, Kind: AttemptEvent, Tone: tone(a.Outcome == "completed"), Text: attemptText(a),
			Details: attemptDetails(a), Attempt: a})
	}
	for i := range r.roadTests {
		test := &r.roadTests[i]
		s.add(StoryEvent{At: test.StartedAt, Until: test.EndedAt, Dated: true, DateOnly: test.StartedOnDate, Shop: test.Shop,
			JobNo: test.JobNo, Kind: RoadTestEvent, Tone: tone(test.Outcome == "passed"), Text: roadTestText(test),
			RoadTest: test})
	}
}

// addPapers adds what may lack a time, which then stands at the end of its visit, and the judgments.
func (s *Story) addPapers(r records, ends map[job]time.Time) {
	for i := range r.glass {
		pane := &r.glass[i]
		event := StoryEvent{Shop: pane.Shop, JobNo: pane.JobNo, Kind: GlassEvent, Tone: Neutral, Text: glassText(pane),
			DateOnly: pane.InstalledOnDate, Glass: pane}
		s.add(event.at(pane.InstalledAt, ends))
	}
	for i := range r.documents {
		document := &r.documents[i]
		event := StoryEvent{Shop: document.Shop, JobNo: document.JobNo, Kind: DocumentEvent, Tone: Neutral,
			Text: words(document.Kind) + " added: " + document.FileName, DateOnly: document.AddedOnDate, Document: document}
		s.add(event.at(document.AddedAt, ends))
	}
	s.addJudgments(ends)
}

// addJudgments adds what was found and decided. A finding has the time of a record, and where that was a date alone it has
// no more.
func (s *Story) addJudgments(ends map[job]time.Time) {
	type moment struct {
		job
		at time.Time
	}
	dateOnly, byID := map[moment]bool{}, map[string]*Finding{}
	for _, event := range s.Events {
		if event.DateOnly {
			dateOnly[moment{job{event.Shop, event.JobNo}, event.At}] = true
		}
	}
	for i := range s.Findings {
		finding := &s.Findings[i]
		byID[finding.Finding] = finding
		event := StoryEvent{Shop: finding.Shop, JobNo: finding.JobNo, Kind: FindingEvent, Tone: Bad,
			Text: findingText(finding), Finding: finding}.at(finding.At, ends)
		event.DateOnly = dateOnly[moment{job{event.Shop, event.JobNo}, event.At}]
		s.add(event)
	}
	for i := range s.Decisions {
		d := &s.Decisions[i]
		finding := byID[d.Finding]
		s.add(StoryEvent{At: d.At, Dated: true, Shop: finding.Shop, JobNo: finding.JobNo, Kind: DecisionEvent, Tone: Neutral,
			Text: decisionText(finding, d), Finding: finding, Decision: d})
	}
}

// at gives the event its moment, or that of its visit's end.
func (e StoryEvent) at(moment *time.Time, ends map[job]time.Time) StoryEvent {
	if e.Dated = moment != nil; e.Dated {
		e.At = *moment
	} else {
		e.At = ends[job{e.Shop, e.JobNo}]
	}
	return e
}

func tone(wentWell bool) Tone {
	if wentWell {
		return Good
	}
	return Bad
}

func orEmpty(text *string) string {
	if text == nil {
		return ""
	}
	return *text
}
