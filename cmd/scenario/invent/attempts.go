package invent

import (
	"fmt"
	"time"

	"plumbline/cmd/scenario/record"
)

// setup is who does an attempt, where and with what.
type setup struct {
	by     *technician
	bay    *bay  // nil on the road
	stand  *tool // nil on the road
	target *tool
}

// calibrate works through the tasks of the job, stage by stage, until each is
// done or given up.
func (s *stay) calibrate() {
	for _, t := range s.why.tasks {
		tried := 0
		for _, method := range s.car.model.stages(t.system) {
			if !s.bring(t, method, &tried) {
				s.unresolved = append(s.unresolved, t)
				break
			}
		}
	}
}

// bring repeats one stage of a task until it completes or is given up.
func (s *stay) bring(t task, method string, tried *int) bool {
	rig := s.rig(t, method)
	for repeat := 0; ; repeat++ {
		*tried++
		if s.attempt(t, method, *tried, rig, repeat > 0) {
			return true
		}
		if s.chance([]float64{0.05, 0.12, 0.4, 1}[min(repeat, 3)]) {
			return false
		}
		rig = s.otherRig(rig, t, method)
		s.now = s.now.Add(s.minutes(6, 34))
	}
}

// attempt books, performs and records one attempt, and tells whether it
// completed.
func (s *stay) attempt(t task, method string, no int, rig setup, repeat bool) bool {
	took := s.duration(t, method)
	start := s.bookRig(took, rig)
	drift := 0.0
	if rig.stand != nil {
		drift = s.g.drift(rig.stand.name, start)
	}
	a := record.Attempt{System: t.system, Position: t.position, No: no, Method: method, StartedAt: start, Outcome: "completed",
		Technician: rig.by.signature(s.dice), SoftwareVersion: s.shop.software(start), Procedure: s.procedure(t, start), Provider: s.provider}
	if s.provider == "sublet" {
		a.Technician = ""
	}
	if rig.bay != nil {
		a.Bay, a.Equipment, a.Target = rig.bay.name, rig.stand.name, rig.target.name
	}
	var why *cause
	if s.chance(s.chanceOfFailure(t, method, rig, drift, repeat)) {
		why = s.whatWentWrong(t, method, drift)
		a.Outcome, a.FailureCode, a.FailureText = s.report(why)
		if why.aborted {
			took = took / 3
		}
	}
	a.EndedAt = start.Add(took)
	s.now = a.EndedAt.Add(s.minutes(2, 11))
	s.v.Attempts = append(s.v.Attempts, a)
	s.measure(t, &a, rig, why, drift)
	return why == nil
}

// chanceOfFailure is where the planted effects act on calibrations.
func (s *stay) chanceOfFailure(t task, method string, rig setup, drift float64, repeat bool) float64 {
	if t.readsGlass() && s.car.distorted() {
		if repeat {
			return distortedRetry
		}
		return distortedTrouble
	}
	p := s.ordinaryTrouble(t, method) * rig.by.skill
	if repeat {
		p = 0.13
	}
	return max(p, drift*driftTrouble)
}

// ordinaryTrouble is the chance that a first attempt fails with nothing wrong.
func (s *stay) ordinaryTrouble(t task, method string) float64 {
	switch t.system {
	case "front_camera", "infrared_camera":
		if method == "dynamic" && len(s.car.model.cameraStages) > 1 {
			return 0.03
		}
		return s.car.model.trouble
	case "front_radar", "lidar":
		return 0.055
	case "front_corner_radar", "rear_corner_radar", "surround_camera":
		return 0.04
	default:
		return 0.015
	}
}

// duration is how long an attempt takes when nothing cuts it short.
func (s *stay) duration(t task, method string) time.Duration {
	switch {
	case t.system == "steering_angle" || t.system == "ultrasonic":
		return s.minutes(3, 8)
	case method == "dynamic":
		return s.minutes(16, 44)
	case method == "static_dynamic":
		return s.minutes(34, 66)
	case t.readsGlass() || t.system == "surround_camera":
		return s.minutes(13, 33)
	default:
		return s.minutes(9, 24)
	}
}

// releases are the calibration software's versions, the same for all stands.
var releases = []struct {
	from    time.Time
	version string
}{
	{day(2026, time.May, 18), "6.1.0"}, {day(2026, time.January, 19), "6.0.2"}, {day(2025, time.August, 11), "5.9.1"},
	{day(2025, time.March, 17), "5.8.4"}, {day(2024, time.November, 4), "5.8.2"}, {time.Time{}, "5.7.6"},
}

// software is the version that the shop runs at the moment.
func (s *shop) software(at time.Time) string {
	for _, r := range releases {
		if !at.Before(r.from.Add(s.updatesAfter)) {
			return r.version
		}
	}
	return ""
}

// procedure names the maker's procedure with its revision, which steps once a
// year; older vehicles stay on older revisions.
func (s *stay) procedure(t task, at time.Time) string {
	if s.chance(0.04) {
		return ""
	}
	number := 100 + 10*len(t.system) + len(s.car.model.name)
	revision := 1 + (s.car.year % 3) + at.Year() - 2024
	return fmt.Sprintf("%s %s-%d rev %d (%d-%02d)", s.car.model.maker, s.car.model.vds[:2], number, revision, at.Year()-1, 1+s.car.year%12)
}
