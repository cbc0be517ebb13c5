package invent

import "plumbline/cmd/scenario/record"

// preScan reads the vehicle before the work. The faults are there whether or
// not anybody reads them.
func (s *stay) preScan() {
	s.before = s.onArrival()
	s.pass(s.minutes(6, 34))
	if s.skipScan(s.shop.skipsPreScan) {
		return
	}
	s.scan("pre", s.before)
	s.now = s.now.Add(s.minutes(3, 9))
}

// interimScan is made now and then between the work and the calibration: the
// camera then misses its calibration.
func (s *stay) interimScan() {
	if len(s.why.tasks) == 0 || !s.chance(0.05) {
		return
	}
	s.pass(0)
	t := s.why.tasks[0]
	first := units[t.system].troubles[0]
	s.scan("interim", []record.Fault{{Module: s.car.model.unitName(t.system, t.position), Code: s.shop.written(first.code),
		Status: "active", System: t.system, Words: first.words}})
	s.now = s.now.Add(s.minutes(3, 9))
}

// postScan reads the vehicle after the road test.
func (s *stay) postScan() {
	s.pass(s.minutes(4, 22))
	if s.skipScan(s.shop.skipsPostScan) {
		return
	}
	s.scan("post", s.atDeparture())
	s.now = s.now.Add(s.minutes(3, 9))
}

// skipScan leaves a scan out: of jobs with calibrations as seldom as the shop
// forgets one, of jobs without mostly.
func (s *stay) skipScan(forgets float64) bool {
	if len(s.why.tasks) == 0 && s.why.faulty == "" && !s.why.skipped {
		return s.chance(0.55)
	}
	return s.chance(forgets)
}

func (s *stay) scan(stage string, faults []record.Fault) {
	no := len(s.v.Scans) + 1
	s.v.Scans = append(s.v.Scans, record.Scan{No: no, Stage: stage, ScannedAt: s.now, Polled: s.car.modules,
		Responded: s.car.modules - s.car.silent - s.between(0, 2)/2, Technician: s.lead.code})
	for _, f := range faults {
		f.ScanNo = no
		s.v.Faults = append(s.v.Faults, f)
	}
}
