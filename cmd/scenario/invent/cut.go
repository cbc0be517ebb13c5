package invent

import (
	"slices"
	"time"

	"plumbline/cmd/scenario/record"
)

// cutAt leaves what stood in the records on the last evening: a job still in
// the shop is open, and what comes later is not there yet.
func (s *stay) cutAt(end time.Time) {
	v := s.v
	if !s.car.outAt.After(end) {
		return
	}
	v.Job.ClosedAt = time.Time{}
	v.Glass = slices.DeleteFunc(v.Glass, func(g record.Glass) bool { return g.InstalledAt.After(end) })
	v.Attempts = slices.DeleteFunc(v.Attempts, func(a record.Attempt) bool { return a.StartedAt.After(end) || a.EndedAt.After(end) })
	v.RoadTests = slices.DeleteFunc(v.RoadTests, func(t record.RoadTest) bool { return t.EndedAt.After(end) })
	v.Scans = slices.DeleteFunc(v.Scans, func(s record.Scan) bool { return s.ScannedAt.After(end) })
	v.Documents = slices.DeleteFunc(v.Documents, func(d record.Document) bool { return d.AddedAt.After(end) })
	v.Faults = slices.DeleteFunc(v.Faults, func(f record.Fault) bool {
		return !slices.ContainsFunc(v.Scans, func(s record.Scan) bool { return s.No == f.ScanNo })
	})
	v.Readings = slices.DeleteFunc(v.Readings, func(r record.Reading) bool {
		return r.AttemptNo > 0 && !slices.ContainsFunc(v.Attempts, func(a record.Attempt) bool { return a.Owns(r) })
	})
}
