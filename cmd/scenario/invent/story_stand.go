package invent

import (
	"time"

	"plumbline/cmd/scenario/record"
)

// driftStory is a stand that is knocked out of square, is found out late, and
// is put right.
type driftStory struct {
	stand                        string
	from, found, repaired        time.Time
	lastCheck                    time.Time // the last one that passed before
	interval                     int       // days that the shop gave itself after that one
	lastWords, damage, repairing string    // notes of the three checks
}

// Two stands of the first group. The third of the first shop walks away in the
// summer of 2025; the check of December finds it, and half a year of work
// afterwards shows that the repair helped. The second of the second shop is
// knocked in April 2026 and, because the shop had lengthened the interval to
// six months, is found only in September: whether its repair helped cannot be
// told yet.
var driftStories = []driftStory{
	{stand: "K-ST3", from: day(2025, time.August, 18), lastCheck: day(2025, time.August, 4).Add(7*time.Hour + 25*time.Minute), interval: 122,
		found: day(2025, time.December, 2).Add(7*time.Hour + 15*time.Minute), repaired: day(2025, time.December, 4).Add(10*time.Hour + 20*time.Minute),
		damage: "left foot sunk, frame 3 mm off the center line, floor plate ordered", repairing: "floor plate set, frame squared, re-zeroed"},
	{stand: "T-ST2", from: day(2026, time.April, 13), lastCheck: day(2026, time.March, 9).Add(7*time.Hour + 40*time.Minute), interval: 175,
		lastWords: "interval set to six months",
		found:     day(2026, time.September, 10).Add(7*time.Hour + 35*time.Minute), repaired: day(2026, time.September, 15).Add(9*time.Hour + 50*time.Minute),
		damage: "crossbar 4.5 mm out of square, knock mark on the right arm, part ordered", repairing: "arm replaced, squared, re-zeroed"},
}

// drift is how far the stand has walked away: 0 while it stands true, 1 at
// its worst, which it reaches after ten weeks.
func (g *group) drift(stand string, at time.Time) float64 {
	if g.index != 0 {
		return 0
	}
	for _, d := range driftStories {
		if d.stand == stand && !at.Before(d.from) && at.Before(d.repaired) {
			return min(1, 0.25+at.Sub(d.from).Hours()/24/70)
		}
	}
	return 0
}

// At its worst a stand stands this far out of true.
const (
	driftDistance = 4.6  // mm
	driftPitch    = 1.15 // deg
	driftYaw      = -0.9 // deg
	driftTrouble  = 0.55 // chance that an attempt fails
)

// driftChecks are the checks of a stand that has such a story; none for others.
func driftChecks(s *shop, t *tool) []record.EquipmentCheck {
	for _, d := range driftStories {
		if d.stand == t.name {
			return []record.EquipmentCheck{
				passed(s, t, d.lastCheck, d.interval, d.lastWords),
				{Shop: s.name, Equipment: t.name, CheckedAt: d.found, Outcome: "failed", DueAt: midnight(d.found).Add(days(checkEvery)), Note: d.damage},
				passed(s, t, d.repaired, checkEvery+21, d.repairing),
			}
		}
	}
	return nil
}
