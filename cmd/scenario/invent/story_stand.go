package invent

import (
	"time"

	"plumbline/cmd/scenario/layout"
)

// The second stand of the second shop is knocked out of square in April 2026.
// Its last check was in March, and the shop had lengthened the interval to six
// months; so it is found out in September, ten days late, and used four more
// days until the part for the repair comes.
const driftingStand = "T-ST2"

var (
	driftFrom     = day(2026, time.April, 13)
	driftFound    = day(2026, time.September, 10).Add(7*time.Hour + 35*time.Minute)
	driftRepaired = day(2026, time.September, 15).Add(9*time.Hour + 50*time.Minute)
)

// drift is how far the stand has walked away: 0 while it stands true, 1 at
// its worst, which it reaches after ten weeks.
func (g *group) drift(stand string, at time.Time) float64 {
	if g.index != 0 || stand != driftingStand || at.Before(driftFrom) || !at.Before(driftRepaired) {
		return 0
	}
	return min(1, 0.25+at.Sub(driftFrom).Hours()/24/70)
}

// At its worst the stand stands this far out of true.
const (
	driftDistance = 4.6  // mm
	driftPitch    = 1.15 // deg
	driftYaw      = -0.9 // deg
	driftTrouble  = 0.55 // chance that an attempt fails
)

func driftChecks(s *shop, t *tool) []layout.EquipmentCheck {
	return []layout.EquipmentCheck{
		passed(s, t, day(2026, time.March, 9).Add(7*time.Hour+40*time.Minute), 175, "interval set to six months"),
		{Shop: s.name, Equipment: t.name, CheckedAt: driftFound, Outcome: "failed", DueAt: day(2026, time.December, 10),
			Note: "crossbar 4.5 mm out of square, knock mark on the right arm, part ordered"},
		passed(s, t, driftRepaired, checkEvery+21, "arm replaced, squared, re-zeroed"),
	}
}
