package invent

import (
	"time"

	"plumbline/cmd/scenario/record"
)

// corner names the four wheel arches in the order in which heights are kept.
var corner = [4]string{"lf", "rf", "lr", "rr"}

// rideTolerance is how far, in mm, a ride height may be from the model's own.
const rideTolerance = 25

// tape measures the four ride heights, or copies them.
func (s *stay) tape(a *record.Attempt, by *technician) {
	heights, copied := s.g.copied(by, s.car, a.StartedAt)
	if !copied {
		for i, mm := range s.car.corners {
			heights[i] = mm + s.between(-1, 1)
		}
	}
	by.remember(heightSet{a.StartedAt, s.car, heights})
	for i, height := range heights {
		s.noteHeight(a, i, height)
	}
}

// inchTape is until when the third shop measured with a tape in inches.
var inchTape = day(2024, time.December, 16)

func (s *stay) noteHeight(a *record.Attempt, i, height int) {
	nominal := s.car.model.rideFront
	if i >= 2 {
		nominal = s.car.model.rideRear
	}
	q := around("ride_height_"+corner[i], "mm", 0, nominal, rideTolerance)
	value := float64(height)
	if s.shop.pressureUnit == "bar" && a.StartedAt.Before(inchTape) {
		q.unit, q.decimals = "in", 2
		q.low, q.high, value = q.low/25.4, q.high/25.4, value/25.4
	}
	s.note(a, q, value)
}

// pressureIn is how a pressure in kPa is written in each unit.
var pressureIn = map[string]struct {
	kPa      float64
	decimals int
}{"kPa": {1, 0}, "bar": {100, 1}, "psi": {6.894757, 0}}

// tires notes the four tire pressures, set to within a few kPa of the sticker.
func (s *stay) tires() {
	written := pressureIn[s.shop.pressureUnit]
	for i := range corner {
		q := around("tire_pressure_"+corner[i], s.shop.pressureUnit, written.decimals, s.car.model.pressure, 20)
		kPa := float64(s.car.model.pressure + s.between(-9, 9))
		q.low, q.high = q.low/written.kPa, q.high/written.kPa
		s.note(nil, q, kPa/written.kPa)
	}
}
