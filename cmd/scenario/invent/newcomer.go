package invent

import (
	"fmt"
	"time"

	"plumbline/cmd/scenario/record"
)

// newcomer is the group of one shop that joined in 2026 and has not brought
// its history along: it exists only as a spreadsheet of its own (package wide).
// The mistakes of its records are made there.
const newcomer = -1

var newcomerRoster = roster{name: "Saltmarsh", mark: "S", weight: 1, people: 2, bays: 2, stands: 1, boards: 5,
	habits: habits{skipsPreScan: 0.02, skipsPostScan: 0.05, skipsCamera: 0.02, skipsRoadTest: 0.03, pressureUnit: "psi", updatesAfter: days(20)},
	number: func(s *shop, _ time.Time) string { return fmt.Sprintf("SM-%04d", 2310+s.counter) }}

// Newcomer invents the jobs of the shop that joined, half a year of them in
// the order in which they were opened.
func Newcomer(seed uint64, jobs int) []*record.Visit {
	g := newGroup(seed, newcomer, day(2026, time.April, 1).Add(7*time.Hour+30*time.Minute), Until)
	g.serial, g.claims = 22_000_000, 930_000 // a plant of its own: none of the other groups' vehicles
	g.open([]roster{newcomerRoster}, 13)
	var all list
	g.run(jobs, &all)
	return all
}

// list collects visits.
type list []*record.Visit

func (l *list) Visit(v *record.Visit) { *l = append(*l, v) }

// Check drops the equipment checks: the newcomer's spreadsheet has none.
func (l *list) Check(record.EquipmentCheck) {}
func (l *list) Action(record.Action)        {}
