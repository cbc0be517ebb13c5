package invent

import (
	"time"

	"plumbline/cmd/scenario/record"
)

// What the first group did about quality, besides the repairs that its
// equipment checks tell: one thing that helped (the check after the repair of
// the first shop's stand says so by itself, and the shop wrote down why), one
// that did not, and two that are too young to judge.
var actions = []record.Action{
	{Shop: "Kestrel", SubjectKind: "equipment", Subject: "K-ST3", TakenAt: day(2025, time.December, 4).Add(10*time.Hour + 30*time.Minute),
		What: "stand moved off the cracked slab, zeroed every Monday from now on", By: "T01"},
	{Shop: "Ferry", SubjectKind: "supplier", Subject: plantedSupplier, TakenAt: day(2026, time.March, 16).Add(8 * time.Hour),
		What: "every Ostrel windshield looked at against the light before it is fitted", By: "T10"},
	{Shop: "Tannery", SubjectKind: "equipment", Subject: "T-ST2", TakenAt: day(2026, time.September, 15).Add(10*time.Hour + 15*time.Minute),
		What: "check interval back to three months", By: "T06"},
	{Shop: "Ferry", SubjectKind: "technician", Subject: copyingTechnician, TakenAt: day(2026, time.September, 21).Add(13 * time.Hour),
		What: "half a day on measuring ride heights", By: "T10"},
}

// act hands the actions of the first group to the sink.
func (g *group) act(to Sink) {
	if g.index != 0 {
		return
	}
	for _, a := range actions {
		if !a.TakenAt.Before(g.from) && a.TakenAt.Before(g.until) {
			to.Action(a)
		}
	}
}
