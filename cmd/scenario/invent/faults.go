package invent

import (
	"slices"

	"plumbline/cmd/scenario/record"
)

// openStatus and restStatus are how faults stand in a scan: those of the
// systems that the visit is about, and those of all others.
var (
	openStatus = []option[string]{{82, "active"}, {14, "pending"}, {4, "unknown"}}
	restStatus = []option[string]{{88, "stored"}, {8, "pending"}, {4, "active"}}
)

// assist draws an open fault of a driver-assistance module.
func (s *stay) assist(t task) record.Fault {
	found := pick(s.dice, units[t.system].troubles...)
	return record.Fault{Module: s.car.model.unitName(t.system, t.position), Code: s.shop.written(found.code),
		Status: draw(s.dice, openStatus), System: t.system, Words: found.words}
}

// bystander draws a fault of a module that has nothing to do with assistance.
func (s *stay) bystander() record.Fault {
	module := draw(s.dice, bystanders)
	found := pick(s.dice, module.troubles...)
	if module.name == "Cabin Gateway" && s.car.model.maker == "Ombrix" {
		found = pick(s.dice, oddCodes...)
	}
	return record.Fault{Module: module.name, Code: s.shop.written(found.code), Status: draw(s.dice, restStatus), Words: found.words}
}

// onArrival makes up what the vehicle would show before any work.
func (s *stay) onArrival() []record.Fault {
	var faults []record.Fault
	add := func(f record.Fault) {
		if !slices.ContainsFunc(faults, func(g record.Fault) bool { return g.Module == f.Module && g.Code == f.Code }) {
			faults = append(faults, f)
		}
	}
	if s.why.faulty != "" {
		add(s.assist(s.taskOn(s.why.faulty)))
	}
	for _, t := range s.why.tasks {
		if s.chance(faultShare[s.why.reason]) {
			add(s.assist(t))
		}
	}
	if s.why.skipped && s.chance(0.4) {
		add(s.assist(camera))
	}
	for range draw(s.dice, bystanderCount) {
		add(s.bystander())
	}
	if s.why.reason == "collision_repair" {
		for range s.between(1, 3) {
			add(s.bystander())
		}
	}
	return faults
}

// faultShare is how often a system that is to be calibrated shows a fault.
var faultShare = map[string]float64{
	"windshield_replacement": 0.14, "camera_removed": 0.2, "collision_repair": 0.5, "wheel_alignment": 0.05, "suspension_work": 0.08,
	"sensor_replaced": 0.75, "software_update": 0.2, "calibration_only": 0.55, "warning_light": 0.4,
}

var bystanderCount = []option[int]{{46, 0}, {32, 1}, {14, 2}, {8, 3}}

func (s *stay) taskOn(system string) task {
	for _, t := range s.why.tasks {
		if t.system == system {
			return t
		}
	}
	return task{system: system}
}

// atDeparture makes up what the vehicle shows after the work: most is
// cleared, some stays stored, little stays or comes open.
func (s *stay) atDeparture() []record.Fault {
	var faults []record.Fault
	for _, f := range s.before {
		switch {
		case s.isUnresolved(f.System) && s.chance(0.6), s.chance(0.007):
			faults = append(faults, f)
		case f.System == "" && s.chance(0.2):
			f.Status = "stored"
			faults = append(faults, f)
		}
	}
	if fresh, found := s.freshFault(); found && !slices.ContainsFunc(faults, func(f record.Fault) bool {
		return f.Module == fresh.Module && f.Code == fresh.Code
	}) {
		faults = append(faults, fresh)
	}
	return faults
}

// freshFault is a fault that came with the work: more often on systems left
// unfinished and behind the planted windshields.
func (s *stay) freshFault() (record.Fault, bool) {
	share := 0.014
	if s.car.distorted() {
		share = 0.09
	}
	switch {
	case len(s.unresolved) > 0 && s.chance(0.35):
		return s.assist(s.unresolved[0]), true
	case len(s.why.tasks) > 0 && s.chance(share):
		return s.assist(pick(s.dice, s.why.tasks...)), true
	case s.chance(0.006):
		f := s.bystander()
		f.Status = draw(s.dice, openStatus)
		return f, true
	default:
		return record.Fault{}, false
	}
}

func (s *stay) isUnresolved(system string) bool {
	return slices.ContainsFunc(s.unresolved, func(t task) bool { return t.system == system })
}
