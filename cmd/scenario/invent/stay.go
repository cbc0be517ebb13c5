package invent

import (
	"time"

	"plumbline/cmd/scenario/record"
)

// stay is one vehicle's time in a shop while its records are being made. The
// clock now only moves forward: what is recorded next happens after.
type stay struct {
	dice
	g    *group
	shop *shop
	why  *errand
	car  *vehicle
	lead *technician
	v    *record.Visit
	now  time.Time

	provider   string
	curedAt    time.Time      // when the adhesive lets the vehicle be moved
	before     []record.Fault // what the vehicle showed on arrival, read or not
	unresolved []task         // given up in this stay
	watched    string         // quantity that made the last attempt fail and is measured again
}

// serve makes the records of one visit, from the gate back to the gate.
func (g *group) serve(s *shop, at time.Time, why *errand) *stay {
	visit := &stay{dice: g.dice, g: g, shop: s, why: why, car: why.car, now: at, v: &record.Visit{}}
	visit.lead = pick(g.dice, s.people...)
	visit.provider = draw(g.dice, providers)
	visit.checkIn()
	visit.preScan()
	visit.work()
	visit.interimScan()
	visit.calibrate()
	visit.proveOnRoad()
	visit.postScan()
	visit.checkOut()
	visit.file()
	return visit
}

// pass lets time go by. When the shop is closed by then, things go on a few
// minutes after it has opened again.
func (s *stay) pass(wait time.Duration) {
	s.now = s.now.Add(wait)
	if next := s.shop.fit(s.now, time.Minute); next.After(s.now) {
		s.now = next.Add(s.minutes(4, 26))
	}
}

var providers = []option[string]{{94, "in_house"}, {4, "mobile"}, {2, "sublet"}}

// checkIn opens the job.
func (s *stay) checkIn() {
	m := s.car.model
	s.v.Job = record.Job{Shop: s.shop.name, No: s.shop.nextNumber(s.now), VIN: s.car.vin, ModelYear: s.car.year, Make: s.spelled(m.maker), Model: m.name,
		OpenedAt: s.now, Reason: s.why.reason, Complaint: s.why.complaint, ComebackOf: s.why.link, Technician: s.lead.code}
	if !s.chance(0.02) {
		s.v.Job.OdometerKM = s.car.odometer(s.now)
	}
	s.insure()
}

// work passes the time until the vehicle is ready to be calibrated, and fits
// the glass.
func (s *stay) work() {
	ready := s.now
	if n := s.daysOfWork(); n > 0 {
		ready = s.shop.workday(s.now.Add(days(n))).Add(s.minutes(20, 360))
	} else if s.why.reason != "calibration_only" && s.why.prior == nil {
		ready = ready.Add(s.minutes(10, 70))
	}
	s.now = ready
	s.pass(0)
	switch {
	case s.why.reason == "windshield_replacement" || s.why.replacesBadGlass:
		s.glaze()
	case s.why.reason == "collision_repair" && s.chance(0.09):
		s.glaze()
	case s.why.reason == "other" && s.chance(0.5):
		s.otherPane()
	}
	if len(s.why.tasks) > 0 {
		s.atJob(s.now)
	}
}

// daysOfWork is how long body and chassis work keeps a vehicle.
func (s *stay) daysOfWork() int {
	switch s.why.reason {
	case "collision_repair":
		return s.between(2, 9)
	case "suspension_work", "sensor_replaced":
		return s.between(0, 2)
	default:
		return 0
	}
}

// checkOut closes the job when the customer comes; the office writes it down
// to the minute, in one shop for a time only to the day.
func (s *stay) checkOut() {
	wait := s.minutes(8, 75)
	if s.chance(0.18) {
		wait += days(1)
	}
	s.pass(wait)
	closed := onMinute(s.now)
	s.v.Job.ClosedAt = closed
	if closed.Before(s.shop.closesByDate) && s.chance(0.4) {
		s.v.Job.ClosedAsDate = true
	}
	s.car.outAt = closed
	s.car.calibrated = s.car.calibrated || len(s.v.Attempts) > 0
}
