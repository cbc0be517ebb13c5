package invent

import "time"

// vehicle is one vehicle of the district, in and out of the shops.
type vehicle struct {
	vin     string
	model   *model
	year    int
	camera  bool // has a front camera
	insurer *insurer

	bornAt     time.Time // when its odometer stood at 0
	kmADay     int
	corners    [4]int // true ride heights in mm: left front, right front, left rear, right rear
	modules    int    // what a full scan asks
	silent     int    // what never answers, such as an option not fitted
	pane       *pane  // the windshield, where a shop of the group fitted it
	outAt      time.Time
	calibrated bool // has any calibration on record
}

// newVehicle draws a vehicle as it comes to a shop for the first time.
func (g *group) newVehicle(now time.Time) *vehicle {
	m := draw(g.dice, modelWeights)
	year := min(m.last, max(m.first, now.Year()-drawAge(g.dice)))
	g.serial++
	v := &vehicle{
		vin:     vin(m, year, g.serial, vinLetters[g.IntN(len(vinLetters))]),
		model:   m,
		year:    year,
		camera:  year >= m.cameraFrom || g.chance(0.3),
		insurer: draw(g.dice, insurerWeights),
		kmADay:  g.between(18, 62),
		modules: m.modules - g.between(0, 24),
		silent:  g.between(0, 3),
	}
	v.bornAt = day(year, time.Month(g.between(1, 6)), g.between(1, 28)).Add(-days(150))
	v.corners = g.rideHeights(m)
	g.park = append(g.park, v)
	return v
}

// modelWeights is the mix of models on the road.
var modelWeights = func() []option[*model] {
	mix := make([]option[*model], len(models))
	for i, m := range models {
		mix[i] = option[*model]{m.weight, m}
	}
	return mix
}()

// drawAge favors vehicles of three to seven years: young enough to be worth a
// calibration, old enough to have met a stone.
func drawAge(d dice) int { return (d.between(0, 6) + d.between(0, 6) + d.between(-1, 3)) * 3 / 5 }

// rideHeights draws what the tape would show: a vehicle sits higher or lower
// as a whole, and each corner a little different from the others.
func (g *group) rideHeights(m *model) [4]int {
	body := g.normal(5, 11)
	var corners [4]int
	for i := range corners {
		nominal := m.rideFront
		if i >= 2 {
			nominal = m.rideRear
		}
		corners[i] = nominal + int(body+g.normal(3.2, 9))
	}
	return corners
}

// odometer is the reading in km at the moment.
func (v *vehicle) odometer(at time.Time) int {
	return 40 + max(0, int(at.Sub(v.bornAt).Hours()/24))*v.kmADay
}

func (v *vehicle) has(system string) bool {
	if system == "front_camera" {
		return v.camera
	}
	return v.model.has(system, v.year)
}

// returning looks for a vehicle seen before that has been out for a while;
// a few looks, so that the search costs nothing in a large park.
func (g *group) returning(now time.Time) *vehicle {
	for range 6 {
		if len(g.park) == 0 {
			return nil
		}
		v := g.park[g.IntN(len(g.park))]
		if !v.outAt.IsZero() && v.outAt.Add(days(75)).Before(now) {
			return v
		}
	}
	return nil
}
