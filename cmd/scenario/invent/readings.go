package invent

import (
	"math"
	"strconv"
	"strings"
	"time"

	"plumbline/cmd/scenario/record"
)

// gauge is a quantity with its tolerance and the way it is written down.
type gauge struct {
	quantity, unit string
	decimals       int
	low, high      float64 // NaN for no bound
}

var open = math.NaN()

// note writes one reading of an attempt, or of the whole job where a is nil.
func (s *stay) note(a *record.Attempt, q gauge, value float64) {
	r := record.Reading{Quantity: q.quantity, Value: decimal(value, q.decimals), Unit: q.unit,
		SpecLow: decimal(q.low, q.decimals), SpecHigh: decimal(q.high, q.decimals)}
	if a != nil {
		r.System, r.Position, r.AttemptNo = a.System, a.Position, a.No
	}
	s.v.Readings = append(s.v.Readings, r)
}

// decimal writes a number with so many decimals; NaN is missing.
func decimal(x float64, decimals int) string {
	if math.IsNaN(x) {
		return ""
	}
	written := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(written, "-0.") == "" {
		return strings.TrimPrefix(written, "-") // nobody writes a negative zero
	}
	return written
}

// within lets a reading vary around the middle of its tolerance, never past
// four fifths of the way to either end.
func (s *stay) within(q gauge) float64 {
	half := (q.high - q.low) / 2
	return q.low + half + s.normal(half*0.3, half*0.8)
}

// beyond is a reading a little past one end of the tolerance.
func (s *stay) beyond(q gauge) float64 {
	past := float64((q.high - q.low) * s.uniform(0.06, 0.56))
	if s.chance(0.5) {
		return q.low - past
	}
	return q.high + past
}

// reading draws a value for a quantity: within tolerance, unless it is what
// made the attempt fail. shift moves it as a stand does that has walked away.
func (s *stay) reading(a *record.Attempt, q gauge, why *cause, shift float64) {
	switch {
	case why != nil && why.reading == q.quantity && shift == 0:
		s.note(a, q, s.beyond(q))
	case why != nil && why.reading == q.quantity:
		s.note(a, q, math.Copysign(s.beyondBy(q), shift)+(q.low+q.high)/2)
	case shift != 0:
		s.note(a, q, s.drawnIn(q, s.within(q)+shift, why == nil))
	default:
		s.note(a, q, s.within(q))
	}
}

// beyondBy is how far from the middle a reading past the tolerance lies.
func (s *stay) beyondBy(q gauge) float64 {
	return float64((q.high - q.low) * s.uniform(0.54, 0.89))
}

// drawnIn keeps most shifted readings of a completed attempt just inside the
// tolerance: the tool would not have let the attempt pass otherwise.
func (s *stay) drawnIn(q gauge, value float64, completed bool) float64 {
	if !completed || s.chance(0.06) {
		return value
	}
	edge := float64((q.high - q.low) * s.uniform(0.02, 0.07))
	return min(max(value, q.low+edge), q.high-edge)
}

// measure records what was measured for one attempt.
func (s *stay) measure(t task, a *record.Attempt, rig setup, why *cause, drift float64) {
	s.surroundings(a, why)
	if a.Method == "dynamic" || s.chance(0.02) {
		return
	}
	m := s.car.model
	stopped := a.Outcome == "aborted"
	switch t.system {
	case "front_camera", "infrared_camera":
		s.tape(a, rig.by)
		s.reading(a, around("target_distance", "mm", 1, m.distance, 5), why, float64(drift*driftDistance))
		s.reading(a, around("target_offset", "mm", 1, 0, 5), why, 0)
		s.reading(a, around("target_height", "mm", 0, m.targetHeight, 5), why, 0)
		if !stopped {
			s.angles(a, why, drift)
		}
	case "front_radar", "lidar":
		s.reading(a, around("target_distance", "mm", 0, m.distance+700, 10), why, float64(drift*driftDistance))
		if !stopped {
			s.angles(a, why, drift)
		}
	case "front_corner_radar", "rear_corner_radar":
		s.reading(a, around("target_distance", "mm", 0, m.distance+250, 12), why, float64(drift*driftDistance))
		if !stopped {
			s.reading(a, around("yaw", "deg", 2, 0, 2), why, float64(drift*driftYaw))
		}
	case "surround_camera":
		s.note(a, gauge{"target_level", "mm_per_m", 1, open, 3}, 0.2+math.Abs(s.normal(0.7, 2.2)))
	}
}

// angles are what the tool reports about the aim that it found.
func (s *stay) angles(a *record.Attempt, why *cause, drift float64) {
	s.reading(a, around("pitch", "deg", 2, 0, 1.5), why, float64(drift*driftPitch))
	s.reading(a, around("yaw", "deg", 2, 0, 1.5), why, float64(drift*driftYaw))
	if a.System == "front_camera" {
		s.reading(a, around("roll", "deg", 2, 0, 1.5), why, 0)
	}
}

func around[N int | float64](quantity, unit string, decimals, middle int, half N) gauge {
	return gauge{quantity, unit, decimals, float64(middle) - float64(half), float64(middle) + float64(half)}
}

// atJob records what is measured once a job, in the units that the shop uses.
func (s *stay) atJob(at time.Time) {
	if s.chance(0.42) {
		s.note(nil, gauge{"battery_voltage", "V", 1, 12.2, open}, 12.4+math.Abs(s.normal(0.5, 1.7)))
	}
	if s.chance(0.3) {
		s.tires()
	}
	if s.chance(0.12) {
		s.note(nil, gauge{"ambient_light", "lux", 0, 400, open}, s.light(at))
	}
	if s.chance(0.08) {
		s.note(nil, gauge{"floor_slope", "mm_per_m", 1, open, 3}, 0.3+math.Abs(s.normal(0.6, 2)))
	}
	if s.chance(0.08) {
		s.note(nil, gauge{"fuel_level", "pct", 0, open, open}, float64(s.between(12, 98)))
	}
	if s.chance(0.01) {
		s.note(nil, gauge{"extra_load", "kg", 0, open, 40}, float64(s.between(5, 35)))
	}
	if s.why.reason == "wheel_alignment" || s.why.reason == "suspension_work" {
		s.reading(nil, around("thrust_angle", "deg", 2, 0, 0.25), nil, 0)
	}
}

// surroundings notes voltage or light where they made an attempt fail, and
// again at the next attempt, when somebody had charged or put on a lamp.
func (s *stay) surroundings(a *record.Attempt, why *cause) {
	bad := why != nil && (why.reading == "battery_voltage" || why.reading == "ambient_light")
	if bad {
		s.watched = why.reading
	}
	switch s.watched {
	case "battery_voltage":
		s.note(a, gauge{"battery_voltage", "V", 1, 12.2, open}, pickIf(bad, 11.4, 13.1)+s.normal(0.2, 0.6))
	case "ambient_light":
		s.note(a, gauge{"ambient_light", "lux", 0, 400, open}, pickIf(bad, 260, 700)+s.normal(50, 120))
	}
	if !bad {
		s.watched = ""
	}
}

func pickIf(bad bool, low, good float64) float64 {
	if bad {
		return low
	}
	return good
}

// light is darker on winter afternoons, but bright enough.
func (s *stay) light(at time.Time) float64 {
	lux := 520 + s.between(0, 600)
	if at.Hour() >= 15 && (at.Month() >= time.November || at.Month() <= time.February) {
		lux -= s.between(0, 100)
	}
	return float64(lux)
}
