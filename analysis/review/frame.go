package review

import (
	"fmt"

	"plumbline/analysis/answer"
	"plumbline/analysis/exhibit/page"
	"plumbline/analysis/exhibit/say"
)

// caution is what stands on everything that this project hands out.
const caution = "Driver-assistance systems brake and steer. This review reads records and does not say that a vehicle is safe. The vehicle maker's " +
	"current procedure, the adhesive maker's drive-away time, local law and a qualified technician's judgment decide. Do not hand over a " +
	"vehicle with an open fault in such a system on the strength of a report."

// frame is what every page of the review has around it.
func frame(about About, nav []page.Link) page.Frame {
	scope := about.Scope
	f := page.Frame{Brand: "quality review", Nav: nav, Caution: caution, AsOf: "No records"}
	if scope.AsOf != nil {
		f.AsOf = "As of " + say.Clock(scope.AsOf)
	}
	if scope.Shops != "" {
		f.AsOf += " · " + scope.Shops
	}
	if !about.IsEmpty() {
		f.Of = say.Month(about.Month)
		if !about.MonthEnded {
			f.Notice = about.NotEnded()
		}
	}
	f.Made = fmt.Sprintf("As of %s. Comebacks are followed for %d days. Filters: %s. %s on record, %s with a calibration.", say.Clock(scope.AsOf), scope.WindowDays,
		answer.FilterWords(about.Filter), say.Several(scope.Jobs, "job", "jobs"), say.Count(scope.Calibrated))
	if about.Version != "" {
		f.Made += " plumbline " + about.Version + "."
	}
	return f
}

// navigation is the pages that every page leads to, in this order.
func navigation() []page.Link {
	links := make([]page.Link, len(leaves))
	for i, l := range leaves {
		links[i] = page.Link{File: l.file, Name: l.name}
	}
	return links
}
