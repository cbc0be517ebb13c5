package wide

import (
	"time"

	"plumbline/cmd/scenario/record"
)

// session is what the desk writes of a job's calibrations: the last attempts
// taken together and, apart from them, a first try on the front camera.
type session struct {
	tasks      []record.Attempt // the last attempt of each task
	start, end time.Time
	firstTry   *record.Attempt
}

// sessionOf sums up a job's attempts. The desk has no place for more than two
// tries, and where something was given up it writes only that down.
func sessionOf(v *record.Visit) session {
	var s session
	for i := range v.Attempts {
		a := v.Attempts[i]
		if s.firstTry == nil && a.System == "front_camera" && a.Outcome != "completed" && hasLater(v, i) {
			s.firstTry = &a
			s.start = time.Time{} // the desk's session begins after it
			continue
		}
		s.add(a)
	}
	for _, a := range s.tasks {
		if a.Outcome != "completed" {
			s.tasks = []record.Attempt{a}
			s.start, s.end = a.StartedAt, a.EndedAt
			break
		}
	}
	return s
}

func hasLater(v *record.Visit, i int) bool {
	for _, a := range v.Attempts[i+1:] {
		if a.System == v.Attempts[i].System && a.Position == v.Attempts[i].Position {
			return true
		}
	}
	return false
}

// add puts an attempt in the place of the one before on the same task. A
// static stage and a dynamic one become one calibration done both ways.
func (s *session) add(a record.Attempt) {
	if s.start.IsZero() || a.StartedAt.Before(s.start) {
		s.start = a.StartedAt
	}
	s.end = a.EndedAt
	for i, before := range s.tasks {
		if before.System == a.System && before.Position == a.Position {
			if before.Method == "static" && a.Method == "dynamic" {
				a.Method, a.Bay, a.Equipment, a.Target = "static_dynamic", before.Bay, before.Equipment, before.Target
			}
			s.tasks[i] = a
			return
		}
	}
	s.tasks = append(s.tasks, a)
}

// camera is the front camera's part of the session.
func (s *session) camera() (record.Attempt, bool) {
	for _, a := range s.tasks {
		if a.System == "front_camera" {
			return a, true
		}
	}
	return record.Attempt{}, false
}
