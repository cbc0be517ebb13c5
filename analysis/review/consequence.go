package review

import "plumbline/analysis/quality"

// A consequence is a kind of finding that a person must look at, and why.
type consequence struct {
	kind, class   string // an empty class is any
	heading, why  string
	page          string
	needsSeverity string // empty: any
}

// consequences are in the order of what can happen to people on the road, then to the shop.
// Source: common practice, no source; the maker's procedure decides.
var consequences = []consequence{
	{"uncured_glass", "driven", "Driven before the adhesive was ready",
		"The windshield holds the airbag and the roof only once its adhesive has cured.", "evidence.html", ""},
	{"unresolved_calibration", "", "Closed with a calibration that did not complete",
		"The system may brake or steer on a wrong aim.", "repeats.html", ""},
	{"missing_calibration", "equipped", "Closed without the calibration that the work calls for",
		"The vehicle is known to have the system, and nobody has aimed it since the work.", "evidence.html", ""},
	{"post_scan_fault", "", "Open fault in a driver-assistance system at the last scan",
		"The system may be off, or act on what it cannot see.", "post-scan-faults.html", "high"},
	{"comeback", "uncalibrated", "Came back for a calibration that was left out",
		"The skipped calibration is the likely cause of the complaint.", "comebacks.html", ""},
	{"comeback", "linked", "Came back: the shop says so itself",
		"The customer was without a working system for these days.", "comebacks.html", ""},
	{"comeback", "probable", "Came back with a complaint about a system calibrated here",
		"It counts as a comeback unless someone dismisses it.", "comebacks.html", ""},
	{"equipment_overdue", "failed", "Calibrated with equipment whose last check had failed",
		"Every calibration made on it since that check is in doubt.", "evidence.html", ""},
	{"comeback", "possible", "Perhaps a comeback: count it or not?",
		"It is in no rate until someone confirms it.", "comebacks.html", ""},
	{"missing_calibration", "likely", "Closed without a calibration that vehicles like it get",
		"Nearly all others of this make, model and year were calibrated after the same work.", "evidence.html", ""},
	{"uncured_glass", "calibrated", "Calibrated while the adhesive was still setting",
		"The glass can still move, and the aim with it.", "evidence.html", ""},
}

// decisionsNeeded sorts the month's findings into the consequences that occur. A finding stands under the first that
// fits it.
func decisionsNeeded(findings []quality.Finding) []Consequence {
	var needed []Consequence
	for _, c := range consequences {
		group := Consequence{Heading: c.heading, Why: c.why, Page: c.page}
		for _, finding := range findings {
			switch {
			case !c.fits(finding):
			case finding.Decision != nil:
				group.Decided++
			default:
				group.Findings = append(group.Findings, finding)
			}
		}
		if len(group.Findings) > 0 {
			needed = append(needed, group)
		}
	}
	return needed
}

func (c consequence) fits(f quality.Finding) bool {
	return f.Kind == c.kind && (c.class == "" || f.Class != nil && *f.Class == c.class) &&
		(c.needsSeverity == "" || f.Severity == c.needsSeverity)
}
