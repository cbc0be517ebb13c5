package invent

import (
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"time"

	"plumbline/cmd/scenario/record"
)

// file keeps the papers of the job. That the scan reports and the calibration
// report are kept together is common practice, no source.
func (s *stay) file() {
	first, last := s.v.Job.OpenedAt, s.now
	for _, scan := range s.v.Scans {
		switch scan.Stage {
		case "pre":
			s.keep(0.985, "pre_scan_report", "pre-scan", "pdf", scan.ScannedAt)
		case "post":
			s.keep(0.985, "post_scan_report", "post-scan", "pdf", scan.ScannedAt)
		}
	}
	if n := len(s.v.Attempts); n > 0 {
		s.keep(0.985, "calibration_report", "calibration", "pdf", s.v.Attempts[n-1].EndedAt)
		s.keep(0.03, "procedure", "procedure", "pdf", first)
	}
	if len(s.v.RoadTests) > 0 {
		s.keep(0.3, "road_test_record", "road-test", "pdf", s.v.RoadTests[len(s.v.RoadTests)-1].EndedAt)
	}
	switch s.why.reason {
	case "wheel_alignment", "suspension_work":
		s.keep(0.9, "alignment_record", "alignment", "pdf", s.now)
	case "collision_repair", "windshield_replacement":
		for i := range max(0, s.between(0, 9)-7) {
			s.keep(1, "photo", fmt.Sprintf("photo-%d", i+1), "jpg", first)
		}
	}
	s.keep(0.45, "invoice", "invoice", "pdf", last)
	s.keep(0.004, "certificate", "technician-certificate", "pdf", last)
}

// keep files a document a few minutes after what it is about, mostly.
func (s *stay) keep(share float64, kind, what, ending string, about time.Time) {
	if !s.chance(share) {
		return
	}
	d := record.Document{Kind: kind, FileName: s.v.Job.No + "_" + what + "." + ending, AddedAt: about.Add(s.minutes(1, 9))}
	if s.shop.hashes {
		d.SHA256 = s.sum()
	} else {
		d.AddedAt, d.AddedAsDate = midnight(d.AddedAt), true
	}
	s.v.Documents = append(s.v.Documents, d)
}

// sum stands for the SHA-256 of a document that does not exist.
func (s *stay) sum() string {
	var bytes [32]byte
	for i := 0; i < len(bytes); i += 8 {
		binary.BigEndian.PutUint64(bytes[i:], s.Uint64())
	}
	return hex.EncodeToString(bytes[:])
}
