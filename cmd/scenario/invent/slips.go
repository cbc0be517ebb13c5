package invent

import (
	"slices"

	"plumbline/cmd/scenario/record"
)

// slip is a mistake in keeping the records, made on a visit's finished records.
// It leaves records alone that do not allow it.
type slip struct {
	chance float64
	make   func(*stay)
}

// slips are rare one by one, so that most jobs have none.
var slips = []slip{
	{0.010, outOfTolerance}, {0.004, equalCorners}, {0.003, inchesAsMillimetres}, {0.003, decimalSlipped},
	{0.003, endsBeforeStart}, {0.003, openedLate}, {0.002, closedEarly}, {0.002, glassAfterCamera}, {0.001, monthMistyped},
	{0.005, preScanLate}, {0.004, postScanBeforeEnd}, {0.006, postScanBeforeDrive}, {0.006, fewAnswered},
	{0.05, attemptTakenOut}, {0.002, numberSkipped}, {0.001, scanLost}, {0.01, readingsLeftOver}, {0.0006, jobLost},
	{0.004, vinMissing}, {0.004, vinMistyped}, {0.004, vinSwapped}, {0.035, brokenLink},
	{0.012, endForgotten}, {0.02, glassTimeForgotten}, {0.03, driveAwayForgotten}, {0.0012, closeForgotten},
}

// slip gives every kind of mistake its chance.
func (s *stay) slip() {
	for _, one := range slips {
		if s.chance(one.chance) {
			one.make(s)
		}
	}
	if len(s.v.Attempts) == 0 {
		s.shop.lastUncalibrated = s.v.Job.No
	}
}

// completed picks one of the visit's completed attempts that has readings of
// the quantity.
func (s *stay) completed(quantity string) (attempt, reading int, found bool) {
	for i, a := range s.v.Attempts {
		at := slices.IndexFunc(s.v.Readings, func(r record.Reading) bool { return a.Owns(r) && r.Quantity == quantity })
		if a.Outcome == "completed" && at >= 0 {
			return i, at, true
		}
	}
	return 0, 0, false
}

// scanOf finds the visit's scan of the stage.
func (s *stay) scanOf(stage string) (*record.Scan, bool) {
	for i := range s.v.Scans {
		if s.v.Scans[i].Stage == stage {
			return &s.v.Scans[i], true
		}
	}
	return nil, false
}

// firstCamera finds the first attempt on the front camera.
func (s *stay) firstCamera() (*record.Attempt, bool) {
	for i := range s.v.Attempts {
		if s.v.Attempts[i].System == "front_camera" {
			return &s.v.Attempts[i], true
		}
	}
	return nil, false
}
