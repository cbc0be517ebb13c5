package invent

import "time"

// endsBeforeStart types the hour of an end one too low.
func endsBeforeStart(s *stay) {
	if len(s.v.Attempts) > 0 {
		a := &s.v.Attempts[s.IntN(len(s.v.Attempts))]
		a.EndedAt = a.EndedAt.Add(-time.Hour)
	}
}

// openedLate opens the job in the books when the work is already under way.
func openedLate(s *stay) {
	if len(s.v.Attempts) > 0 && s.provider == "in_house" {
		s.v.Job.OpenedAt = onMinute(s.v.Attempts[0].StartedAt.Add(s.minutes(2, 9)))
	}
}

// closedEarly closes the job in the books before the last attempt has ended.
func closedEarly(s *stay) {
	if n := len(s.v.Attempts); n > 0 {
		s.v.Job.ClosedAt = s.v.Attempts[n-1].EndedAt.Add(-s.minutes(1, 5)).Truncate(time.Minute)
	}
}

// glassAfterCamera notes the glass as set when the camera was already being
// calibrated.
func glassAfterCamera(s *stay) {
	if a, found := s.firstCamera(); found && len(s.v.Glass) > 0 {
		s.v.Glass[0].InstalledAt = onMinute(a.StartedAt.Add(s.minutes(4, 20)))
	}
}

// monthMistyped closes a job a month before it was opened.
func monthMistyped(s *stay) {
	s.v.Job.ClosedAt = s.v.Job.ClosedAt.AddDate(0, -1, 0)
}

// preScanLate makes the first scan when the calibration has begun.
func preScanLate(s *stay) {
	if scan, found := s.scanOf("pre"); found && len(s.v.Attempts) > 0 {
		scan.ScannedAt = s.v.Attempts[0].StartedAt.Add(s.minutes(1, 6))
	}
}

// postScanBeforeEnd makes the last scan while the last attempt still runs.
func postScanBeforeEnd(s *stay) {
	if scan, found := s.scanOf("post"); found && len(s.v.Attempts) > 0 {
		scan.ScannedAt = s.v.Attempts[len(s.v.Attempts)-1].EndedAt.Add(-s.minutes(0, 2) - time.Second)
	}
}

// postScanBeforeDrive makes the last scan before the road test, not after it.
func postScanBeforeDrive(s *stay) {
	if scan, found := s.scanOf("post"); found && len(s.v.RoadTests) > 0 {
		scan.ScannedAt = s.v.RoadTests[len(s.v.RoadTests)-1].StartedAt.Add(-s.minutes(0, 2) - time.Second)
	}
}

// fewAnswered lets the last scan hear far fewer modules than the first, as
// when the gateway still slept.
func fewAnswered(s *stay) {
	pre, had := s.scanOf("pre")
	if post, has := s.scanOf("post"); had && has {
		post.Responded = pre.Responded * s.between(78, 93) / 100
	}
}

// endForgotten leaves an attempt without an end.
func endForgotten(s *stay) {
	if len(s.v.Attempts) > 0 {
		s.v.Attempts[s.IntN(len(s.v.Attempts))].EndedAt = time.Time{}
	}
}

// glassTimeForgotten leaves open when the glass was set.
func glassTimeForgotten(s *stay) {
	if len(s.v.Glass) > 0 {
		s.v.Glass[0].InstalledAt = time.Time{}
	}
}

// driveAwayForgotten leaves the adhesive's time open.
func driveAwayForgotten(s *stay) {
	if len(s.v.Glass) > 0 {
		s.v.Glass[0].DriveAwayMin = 0
	}
}

// closeForgotten leaves a job open for ever.
func closeForgotten(s *stay) { s.v.Job.ClosedAt = time.Time{} }
