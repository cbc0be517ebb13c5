package invent

import "time"

// The third technician of the third shop sometimes saves himself the tape
// and writes the ride heights of a vehicle of the same model that he measured
// in the last weeks.
const (
	copyingTechnician = "T11"
	copyingFrom       = 0.16 // of the sets for which there is one to copy
)

// copied returns the heights that the technician copies instead of measuring.
func (g *group) copied(by *technician, car *vehicle, at time.Time) ([4]int, bool) {
	if g.index != 0 || by.code != copyingTechnician || !g.chance(copyingFrom) {
		return [4]int{}, false
	}
	for i := len(by.sets) - 1; i >= 0; i-- {
		set := by.sets[i]
		if set.car != car && set.car.model == car.model && set.at.Add(days(24)).After(at) {
			return set.heights, true
		}
	}
	return [4]int{}, false
}
