package answer

import (
	"fmt"

	"plumbline/analysis/exhibit/say"
)

// Month is what the first sentences of a review rest on.
type Month struct {
	About    About
	Figures  Figures
	Waiting  []Consequence
	Standing int64 // things that stand out over all pages
}

// Sentences say what the month was. They call it better or worse only where a control chart signals.
func (m Month) Sentences() ([]string, error) {
	first, err := m.firstPass()
	if err != nil {
		return nil, err
	}
	return []string{first, m.comebacks(), m.decisions()}, nil
}

func (m Month) firstPass() (string, error) {
	figure := m.Figures.in(m.About.Month, "first_pass")
	if figure == nil {
		return fmt.Sprintf("In %s no calibration is on record (%s closed).", m.About.monthWords(), say.NoneOr(m.About.Volume.Closed, "job", "jobs")), nil
	}
	now := figure.Now
	said := fmt.Sprintf("In %s, %s of %s passed the first time: %s (95%s%% interval %s), %s", m.About.monthWords(), say.OrNone(now.Count),
		say.Several(now.N, "calibration task", "calibration tasks"), say.Percent(*now.Rate), say.NBSP, say.Between(now.Low, now.High), relative(figure.usualWords()))
	against, err := figure.againstBefore()
	if m.Standing > 0 { // the month as a whole is no comfort over what stands out in it
		against += fmt.Sprintf(". Behind the whole, %s out: see below", say.Several(m.Standing, "thing stands", "things stand"))
	}
	return said + against + ".", err
}

func (m Month) comebacks() string {
	window := m.About.Scope.WindowDays
	said := fmt.Sprintf("%s in %s counts as a comeback (the month before: %s)", say.Sentence(say.NoneOr(m.About.Volume.Returns, "return visit", "return visits")),
		m.About.monthWords(), say.OrNone(m.About.Before.Returns))
	if m.About.Volume.Returns > 1 {
		said = fmt.Sprintf("%s in %s count as comebacks (the month before: %s)", say.Several(m.About.Volume.Returns, "", "return visits"), m.About.monthWords(),
			say.OrNone(m.About.Before.Returns))
	}
	figure := m.Figures.named("comeback")
	if figure == nil {
		return said + fmt.Sprintf("; no month's jobs have all been followed for %d days yet, so there is no comeback rate.", window)
	}
	now := figure.Now
	return said + fmt.Sprintf("; of the %s closed in %s, the latest month followed for the full %d days, %s came back: %s (95%s%% interval %s), %s.",
		say.Several(now.N, "calibrated job", "calibrated jobs"), say.Month(now.Period), window, say.OrNone(now.Count), say.Percent(*now.Rate), say.NBSP,
		say.Between(now.Low, now.High), relative(figure.usualWords()))
}

func (m Month) decisions() string {
	faults := "No calibrated job was scanned afterwards"
	if figure := m.Figures.in(m.About.Month, "open_faults"); figure != nil {
		faults = fmt.Sprintf("At the last scan, %s open over %s", say.NoneOr(figure.Now.Count, "fault was", "faults were"),
			say.Several(figure.Now.N, "scanned job", "scanned jobs"))
	}
	waiting := int64(0)
	for _, group := range m.Waiting {
		waiting += int64(len(group.Findings))
	}
	if waiting == 0 {
		return faults + ", and no finding of the month waits for a decision."
	}
	return fmt.Sprintf("%s, and %s of the month %s for a decision: the gravest is “%s”.", faults, say.Several(waiting, "finding", "findings"),
		say.One(waiting, "waits", "wait"), m.Waiting[0].Heading)
}
