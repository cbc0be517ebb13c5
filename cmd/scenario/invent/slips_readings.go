package invent

import "strconv"

// outOfTolerance lets an attempt pass with a reading that should have stopped it.
func outOfTolerance(s *stay) {
	quantity := pick(s.dice, "target_distance", "pitch", "yaw", "ride_height_lf", "ride_height_rr", "target_height")
	_, at, found := s.completed(quantity)
	if !found {
		return
	}
	r := &s.v.Readings[at]
	low, high, decimals := bounds(r.SpecLow), bounds(r.SpecHigh), 1
	if r.Unit == "deg" || r.Unit == "in" {
		decimals = 2
	}
	past := float64((high - low) * s.uniform(0.04, 0.24))
	if s.chance(0.5) {
		r.Value = decimal(low-past, decimals)
	} else {
		r.Value = decimal(high+past, decimals)
	}
}

// bounds reads back a bound that this program has written.
func bounds(written string) float64 {
	x, err := strconv.ParseFloat(written, 64)
	if err != nil {
		panic("invent: bound not written as a number: " + written)
	}
	return x
}

// equalCorners writes one round height at all four wheels, as nobody measures.
func equalCorners(s *stay) {
	i, first, found := s.completed("ride_height_lf")
	if !found || s.v.Readings[first].Unit != "mm" {
		return
	}
	height := strconv.Itoa((s.car.model.rideFront + s.car.model.rideRear) / 10 * 5)
	for at := range s.v.Readings {
		r := &s.v.Readings[at]
		if s.v.Attempts[i].Owns(*r) && len(r.Quantity) == len("ride_height_lf") && r.Quantity[:4] == "ride" {
			r.Value = height
		}
	}
}

// inchesAsMillimetres writes what an inch tape shows into a column of
// millimetres.
func inchesAsMillimetres(s *stay) { s.misread(25.4, 1) }

// decimalSlipped writes a tenth of a length, or ten times it.
func decimalSlipped(s *stay) { s.misread(pick(s.dice, 10, 10, 0.1), 1) }

func (s *stay) misread(by float64, decimals int) {
	_, at, found := s.completed(pick(s.dice, "target_distance", "target_distance", "target_height", "ride_height_lr"))
	if found && s.v.Readings[at].Unit == "mm" {
		r := &s.v.Readings[at]
		r.Value = decimal(bounds(r.Value)/by, decimals)
	}
}
