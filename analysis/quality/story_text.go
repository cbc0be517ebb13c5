package quality

import (
	"fmt"
	"strconv"
	"strings"

	"plumbline/analysis/history"
)

// words writes a word of the record layout as people do.
func words(word string) string { return strings.ReplaceAll(word, "_", " ") }

// phrase joins the parts that are there.
func phrase(between string, parts ...string) string {
	var there []string
	for _, part := range parts {
		if part != "" {
			there = append(there, part)
		}
	}
	return strings.Join(there, between)
}

// with puts a word before a value that is there.
func with(before string, text *string) string {
	if text == nil {
		return ""
	}
	return before + *text
}

func figure(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func figureOf(x *float64, unit string) string {
	if x == nil {
		return ""
	}
	return figure(*x) + " " + unit
}

func openedText(v *StoryVisit) string {
	return phrase(", ", "vehicle in: "+words(v.Reason), figureOf(v.OdometerKM, "km"),
		with("lead technician ", v.Technician), with("comeback of ", v.ComebackOf)) + with(": ", v.Complaint)
}

func glassText(g *StoryGlass) string {
	drive := ""
	if g.DriveAwayMin != nil {
		drive = "not to be driven for " + figure(*g.DriveAwayMin) + " min after"
	}
	bracket := ""
	if g.Bracket != nil {
		bracket = "bracket " + words(*g.Bracket)
	}
	return phrase(", ", words(g.Position)+" fitted: "+g.Source, with("brand ", g.Brand), with("supplier ", g.Supplier),
		with("part ", g.PartNo), bracket, with("by ", g.Installer), drive)
}

func scanText(scan *StoryScan) string {
	answered := ""
	if scan.ModulesPolled != nil && scan.ModulesResponded != nil {
		answered = fmt.Sprintf("%d of %d modules answered", *scan.ModulesResponded, *scan.ModulesPolled)
	}
	return phrase(", ", fmt.Sprintf("%s scan %d", scan.Stage, scan.ScanNo), answered, faultCounts(scan.Faults))
}

// faultCounts sums faults up by what became of them.
func faultCounts(faults []StoryFault) string {
	counts := map[string]int{}
	for _, fault := range faults {
		counts[faultWord(fault)]++
	}
	var parts []string
	for _, word := range []string{"new", "remaining", "open", "cleared", "stored"} {
		if counts[word] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", counts[word], word))
		}
	}
	if len(parts) == 0 {
		return "no codes"
	}
	return strings.Join(parts, ", ")
}

// faultWord says what became of a fault. A stored code left after the work is shown as such: it is never flagged.
func faultWord(fault StoryFault) string {
	class := orEmpty(fault.Class)
	switch {
	case class == "cleared":
		return "cleared"
	case !fault.IsOpen:
		return "stored"
	case class == "new" || class == "remaining":
		return class
	default:
		return "open"
	}
}

// faultTexts gives a fault its status and what became of it; a stored code that stays is both in one word.
func faultTexts(faults []StoryFault) []string {
	var texts []string
	for _, fault := range faults {
		became := faultWord(fault)
		if became == fault.Status {
			became = ""
		}
		texts = append(texts, phrase(", ", fault.Module+" "+fault.Code+" "+fault.Status, became,
			words(orEmpty(fault.System)))+with(": ", fault.Description))
	}
	return texts
}

// scanTone is bad where the scan after the work leaves an open fault, good where it leaves none.
func scanTone(scan *StoryScan) Tone {
	if scan.Stage != "post" {
		return Neutral
	}
	for _, fault := range scan.Faults {
		if fault.IsOpen {
			return Bad
		}
	}
	return Good
}

func attemptText(a *StoryAttempt) string {
	title := phrase(" ", words(a.System), orEmpty(a.Position), "attempt "+strconv.FormatInt(a.AttemptNo, 10))
	method := ""
	if a.Method != nil {
		method = words(*a.Method)
	}
	return phrase(", ", title, method) + ": " + phrase(", ",
		phrase(" ", a.Outcome, phrase(" ", orEmpty(a.FailureCode), orEmpty(a.FailureText))),
		with("by ", a.Technician), with("in ", a.Bay), with("on ", a.Equipment), with("target ", a.Target),
		with("software ", a.SoftwareVersion))
}

// attemptDetails lists what changed since the attempt before, then the measured values.
func attemptDetails(a *StoryAttempt) []string {
	var texts []string
	for _, c := range a.Changed {
		before, after := missing(c.Before), missing(c.After)
		if c.ValueBefore != nil {
			before, after = figure(*c.ValueBefore), figure(*c.ValueAfter)+" "+*c.Unit
		}
		texts = append(texts, "changed: "+words(c.What)+" from "+before+" to "+after)
	}
	return append(texts, readingTexts(a.Readings)...)
}

func missing(text *string) string {
	if text == nil {
		return "none recorded"
	}
	return *text
}

func readingTexts(readings []StoryReading) []string {
	var texts []string
	for _, r := range readings {
		text := words(r.Quantity) + " " + figure(r.Value) + " " + r.Unit
		if r.SpecLow != nil || r.SpecHigh != nil {
			text += ", tolerance " + bound(r.SpecLow) + " to " + bound(r.SpecHigh)
		}
		if r.Outside != nil {
			text += ", too " + *r.Outside
		}
		texts = append(texts, text)
	}
	return texts
}

func bound(x *float64) string {
	if x == nil {
		return "open"
	}
	return figure(*x)
}

func roadTestText(t *StoryRoadTest) string {
	return phrase(", ", fmt.Sprintf("road test %d: %s", t.TestNo, t.Outcome), figureOf(t.DistanceKM, "km"),
		with("by ", t.Technician), orEmpty(t.Note))
}

func findingText(f *Finding) string {
	class := ""
	if f.Class != nil {
		class = words(*f.Class)
	}
	return phrase(", ", words(f.Kind), class, f.Severity+" severity", orEmpty(f.Decision)) + with(": ", f.Detail)
}

func decisionText(f *Finding, d *history.Decision) string {
	return words(f.Kind) + " " + f.Finding[:8] + " " + string(d.Verdict) + " by " + d.By + ": " + d.Note
}
