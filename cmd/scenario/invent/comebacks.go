package invent

import (
	"slices"
	"time"
)

// comeBack decides whether a vehicle returns because of the stay, when, where
// and how the shop writes it down, and puts it on the shop's list.
func (g *group) comeBack(s *stay) {
	if s.why.elsewhere {
		g.sendToCalibrate(s)
		return
	}
	how, found := g.comebackStyle(s)
	if !found {
		return
	}
	e := &errand{car: s.car, prior: &priorJob{s.v.Job.Insurer, s.v.Job.ClaimNo}, shop: s.shop,
		reason: pick(g.dice, "warning_light", "warning_light", "customer_complaint", "recheck")}
	e.due = s.v.Job.ClosedAt.Add(g.delay(how))
	if len(g.shops) > 1 && g.chance(0.05) {
		e.shop = pick(g.dice, g.shops...)
	}
	g.fill(e, s, how)
	e.complaint = g.complain(e)
	g.expect(e)
}

// The ways in which a job comes back.
type style int

const (
	sameSystem style = iota // looked at and calibrated again
	onlyFault               // the fault is read, nothing is calibrated
	nothing                 // nothing found
	unfinished              // what was given up is taken up again
	neverDone               // the calibration that was left out is missed
)

// comebackStyle is where the planted effects act on comebacks.
func (g *group) comebackStyle(s *stay) (style, bool) {
	chance := 0.024
	switch {
	case s.why.skipped:
		return neverDone, g.chance(0.32)
	case len(s.why.tasks) == 0:
		return 0, false
	case len(s.unresolved) > 0 && g.chance(0.5):
		return unfinished, true
	case s.car.distorted():
		chance = distortedComeback
	case g.drift(s.stand(), s.v.Job.ClosedAt) > 0:
		chance = 0.12
	case len(s.v.Attempts) > len(s.why.tasks)+1:
		chance = 0.04
	}
	return draw(g.dice, []option[style]{{82, sameSystem}, {7, onlyFault}, {11, nothing}}), g.chance(chance)
}

// stand is the stand of the last attempt that used one.
func (s *stay) stand() string {
	for _, a := range slices.Backward(s.v.Attempts) {
		if a.Equipment != "" {
			return a.Equipment
		}
	}
	return ""
}

// delay is the time until the vehicle is back: mostly days or weeks, seldom
// months, some of them past any window.
func (g *group) delay(how style) time.Duration {
	hours := 20 + float64(g.ExpFloat64()*24*17)
	if how == unfinished {
		hours = 16 + float64(g.ExpFloat64()*24*5)
	}
	return time.Duration(min(hours, 24*130) * float64(time.Hour))
}

// fill gives the return visit its work and its link.
func (g *group) fill(e *errand, s *stay, how style) {
	back := s.why.tasks
	linked := 0.45
	switch how {
	case neverDone:
		back, linked, e.faulty = []task{camera}, 0, "front_camera"
	case unfinished:
		back, linked, e.reason = s.unresolved[:1], 0.35, pick(g.dice, "recheck", "recheck", "warning_light")
	case nothing, onlyFault:
		linked = 0.3
	default:
		back = back[:1]
	}
	if how == sameSystem || how == onlyFault || how == unfinished {
		if g.chance(0.75) || how == onlyFault {
			e.faulty = back[0].system
		}
	}
	if how != nothing && how != onlyFault {
		e.tasks = slices.Clone(back)
	}
	e.replacesBadGlass = how == sameSystem && s.car.distorted() && g.chance(0.35)
	if e.shop == s.shop && g.chance(linked) {
		e.link = s.v.Job.No
	}
}

// sendToCalibrate has the first shop calibrate what the shop did not.
func (g *group) sendToCalibrate(s *stay) {
	g.expect(&errand{car: s.car, shop: g.shops[0], reason: "calibration_only", tasks: []task{camera}, due: s.v.Job.ClosedAt.Add(g.minutes(300, 2400))})
}

// expect puts an errand on the shop's list in the order of due times.
func (g *group) expect(e *errand) {
	list := e.shop.due
	at, _ := slices.BinarySearchFunc(list, e, func(a, b *errand) int { return a.due.Compare(b.due) })
	e.shop.due = slices.Insert(list, at, e)
}

// expected takes the first errand off the list that is due by now and whose
// vehicle is not in a shop at the moment, if there is one.
func (s *shop) expected(now time.Time) *errand {
	for i, e := range s.due {
		if e.due.After(now) {
			return nil
		}
		if e.car.outAt.Before(now) {
			s.due = slices.Delete(s.due, i, i+1)
			return e
		}
	}
	return nil
}
