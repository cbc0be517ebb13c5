package invent

import "plumbline/cmd/scenario/record"

// proveOnRoad drives the vehicle after a calibration on a stand; after a
// dynamic one seldom, because that was a drive itself. A drive that fails is
// followed by another calibration and another drive.
func (s *stay) proveOnRoad() {
	if !s.wantsDrive() {
		return
	}
	if s.drive(0.022) {
		return
	}
	s.now = s.now.Add(s.minutes(6, 20))
	if last := s.v.Attempts[len(s.v.Attempts)-1]; s.chance(0.75) {
		t := task{last.System, last.Position}
		if !s.attempt(t, last.Method, last.No+1, s.rig(t, last.Method), true) {
			s.unresolved = append(s.unresolved, t)
			return
		}
	}
	s.drive(0)
}

func (s *stay) wantsDrive() bool {
	if len(s.v.Attempts) == 0 || len(s.unresolved) == len(s.why.tasks) {
		return false
	}
	for i := len(s.v.Attempts) - 1; i >= 0; i-- {
		if last := s.v.Attempts[i]; last.Outcome == "completed" {
			if last.Method != "static" {
				return s.chance(0.12)
			}
			break
		}
	}
	return !s.chance(s.shop.skipsRoadTest)
}

// drive is one road test, and tells whether it passed.
func (s *stay) drive(fails float64) bool {
	took := s.minutes(9, 27)
	start := s.shop.book(s.now.Add(s.minutes(3, 20)), took, s.minutes(2, 14), &s.lead.diary)
	passed := !s.chance(fails)
	test := record.RoadTest{No: len(s.v.RoadTests) + 1, StartedAt: start, EndedAt: start.Add(took),
		DistanceKM: decimal(float64(took.Minutes()*s.uniform(0.55, 0.95)), 1), Outcome: "passed", Technician: s.lead.code}
	if !passed {
		test.Outcome, test.Note = "failed", pick(s.dice, "lane assist pulls to the right", "lane assist comes late", "cruise control does not take up the car ahead",
			"warning light came on after 4 km", "signs not shown")
	} else if s.chance(0.05) {
		test.Note = pick(s.dice, "ok", "wet road", "highway and town", "night, lines poor but fine", "traffic, took longer")
	}
	s.v.RoadTests = append(s.v.RoadTests, test)
	s.now = test.EndedAt.Add(s.minutes(2, 9))
	return passed
}
