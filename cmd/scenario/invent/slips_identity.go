package invent

import (
	"slices"
	"strings"

	"plumbline/cmd/scenario/record"
)

func vinMissing(s *stay) { s.v.Job.VIN = "" }

// vinMistyped reads a 0 as O, or leaves a character out.
func vinMistyped(s *stay) {
	if number := s.v.Job.VIN; strings.Contains(number, "0") && s.chance(0.5) {
		s.v.Job.VIN = strings.Replace(number, "0", "O", 1)
	} else if len(number) == 17 {
		at := s.between(11, 16)
		s.v.Job.VIN = number[:at] + number[at+1:]
	}
}

// vinSwapped swaps two neighbors of a number whose check digit tells.
func vinSwapped(s *stay) {
	number := []byte(s.v.Job.VIN)
	if len(number) != 17 || number[0] < '1' || number[0] > '5' {
		return
	}
	for at := 15; at > 10; at-- {
		if number[at] != number[at+1] {
			number[at], number[at+1] = number[at+1], number[at]
			s.v.Job.VIN = string(number)
			return
		}
	}
}

// brokenLink writes a wrong job number into comeback_of. Only customers who
// come back make anybody fill that field.
func brokenLink(s *stay) {
	switch s.why.reason {
	case "warning_light", "customer_complaint", "recheck":
	default:
		return
	}
	j := &s.v.Job
	ahead := *s.shop
	ahead.counter += 2
	switch s.IntN(4) {
	case 0:
		j.ComebackOf = "see paper file"
	case 1:
		j.ComebackOf = j.No
	case 2:
		j.ComebackOf = ahead.number(&ahead, j.OpenedAt)
	default:
		j.ComebackOf = s.shop.lastUncalibrated
	}
}

// attemptTakenOut takes the attempt before last out of a task's records; the
// numbers of the others stay.
func attemptTakenOut(s *stay) {
	for i, a := range s.v.Attempts {
		if a.No > 1 && i > 0 && s.v.Attempts[i-1].Outcome != "completed" {
			s.dropAttempt(i - 1)
			return
		}
	}
}

// numberSkipped numbers the only attempt of a job 2.
func numberSkipped(s *stay) {
	if len(s.v.Attempts) == 1 {
		first := s.v.Attempts[0]
		s.v.Attempts[0].No = 2
		for i := range s.v.Readings {
			if first.Owns(s.v.Readings[i]) {
				s.v.Readings[i].AttemptNo = 2
			}
		}
	}
}

func (s *stay) dropAttempt(at int) {
	gone := s.v.Attempts[at]
	s.v.Attempts = slices.Delete(s.v.Attempts, at, at+1)
	s.v.Readings = slices.DeleteFunc(s.v.Readings, gone.Owns)
}

// scanLost loses a scan, but not the faults that it read.
func scanLost(s *stay) {
	for i, scan := range s.v.Scans {
		if slices.ContainsFunc(s.v.Faults, func(f record.Fault) bool { return f.ScanNo == scan.No }) {
			s.v.Scans = slices.Delete(s.v.Scans, i, i+1)
			return
		}
	}
}

// readingsLeftOver loses a failed attempt, but not what was measured for it.
func readingsLeftOver(s *stay) {
	for i, a := range s.v.Attempts {
		if a.Outcome != "completed" && len(s.v.Attempts) > 1 {
			s.v.Attempts = slices.Delete(s.v.Attempts, i, i+1)
			return
		}
	}
}

// jobLost loses the job's own row.
func jobLost(s *stay) { s.v.JobLost = true }
