package invent

import "time"

// rig chooses who does a task, where and with what: mostly the technician who
// leads the job, any free bay, any stand, the board for the maker. Work on the
// road or in other people's halls has no bay and no stand of the shop.
func (s *stay) rig(t task, method string) setup {
	r := setup{by: s.lead}
	if s.chance(0.16) {
		r.by = pick(s.dice, s.shop.people...)
	}
	if method == "dynamic" || t.system == "steering_angle" || s.provider != "in_house" {
		return r
	}
	r.bay, r.stand = pick(s.dice, s.shop.bays...), pick(s.dice, s.shop.stands...)
	r.target = s.targetFor(t)
	return r
}

// targetFor picks a camera board of the vehicle's maker or a corner reflector.
func (s *stay) targetFor(t task) *tool {
	switch t.system {
	case "front_radar", "front_corner_radar", "rear_corner_radar", "lidar":
		return pick(s.dice, s.shop.mirrors...)
	}
	board := s.shop.boards[boardOf[s.car.model.maker]%len(s.shop.boards)]
	if last := s.shop.boards[len(s.shop.boards)-1]; last.name == newBoard && board.name == "K-TB3" &&
		!s.now.Before(last.since) && s.chance(0.5) {
		return last
	}
	return board
}

var boardOf = map[string]int{"Aurelle": 0, "Brantis": 1, "Kavero": 2, "Ombrix": 3, "Merrow": 4}

// otherRig changes something or nothing before the next attempt. From a
// stand that has walked away people learn to change to another.
func (s *stay) otherRig(r setup, t task, method string) setup {
	if r.stand == nil {
		if s.chance(0.2) {
			r.by = pick(s.dice, s.shop.people...)
		}
		return r
	}
	change := 0.22
	if s.g.drift(r.stand.name, s.now) > 0.3 {
		change = 0.75
	}
	if s.chance(change) {
		r.stand = s.anotherStand(r.stand)
	}
	if s.chance(0.14) {
		r.bay = pick(s.dice, s.shop.bays...)
	}
	if s.chance(0.15) {
		r.by = pick(s.dice, s.shop.people...)
	}
	return r
}

func (s *stay) anotherStand(than *tool) *tool {
	for {
		if stand := pick(s.dice, s.shop.stands...); stand != than || len(s.shop.stands) == 1 {
			return stand
		}
	}
}

// bookRig finds the time at which technician, bay and stand are all free.
// Rarely the office writes an attempt into a bay or onto a person that is
// busy with another vehicle.
func (s *stay) bookRig(need time.Duration, r setup) time.Time {
	if r.bay == nil {
		return s.shop.book(s.now, need, s.minutes(2, 18), &r.by.diary)
	}
	if s.chance(0.012) {
		if start, found := s.during(&r.bay.diary, need); found {
			return start
		}
	}
	return s.shop.book(s.now, need, s.minutes(2, 18), &r.by.diary, &r.bay.diary, &r.stand.diary)
}

// during finds a moment within somebody else's booking.
func (s *stay) during(d *diary, need time.Duration) (time.Time, bool) {
	for _, taken := range d.taken {
		middle := taken.start.Add(taken.end.Sub(taken.start) / 2)
		if middle.After(s.now) && s.shop.fit(middle, need).Equal(middle) {
			return middle, true
		}
	}
	return time.Time{}, false
}
