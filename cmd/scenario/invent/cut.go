package invent

import (
	"slices"
	"time"

	"plumbline/cmd/scenario/layout"
)

// cutAt leaves what stood in the records on the last evening: a job still in
// the shop is open, and what comes later is not there yet.
func (s *stay) cutAt(end time.Time) {
	v := s.v
	if !s.car.outAt.After(end) {
		return
	}
	v.Job.ClosedAt = time.Time{}
	v.Glass = slices.DeleteFunc(v.Glass, func(g layout.Glass) bool { return g.InstalledAt.After(end) })
	v.Attempts = slices.DeleteFunc(v.Attempts, func(a layout.Attempt) bool { return a.StartedAt.After(end) || a.EndedAt.After(end) })
	v.RoadTests = slices.DeleteFunc(v.RoadTests, func(t layout.RoadTest) bool { return t.EndedAt.After(end) })
	v.Scans = slices.DeleteFunc(v.Scans, func(s layout.Scan) bool { return s.ScannedAt.After(end) })
	v.Documents = slices.DeleteFunc(v.Documents, func(d layout.Document) bool { return d.AddedAt.After(end) })
	v.Faults = slices.DeleteFunc(v.Faults, func(f layout.Fault) bool {
		return !slices.ContainsFunc(v.Scans, func(s layout.Scan) bool { return s.No == f.ScanNo })
	})
	v.Readings = slices.DeleteFunc(v.Readings, func(r layout.Reading) bool {
		return r.AttemptNo > 0 && !slices.ContainsFunc(v.Attempts, func(a layout.Attempt) bool { return a.Owns(r) })
	})
}
