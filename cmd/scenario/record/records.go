// Package record holds the ten kinds of calibration record as structs and
// writes them as CSV files in the record layout. What the records say is
// decided elsewhere; here is only how they are written down.
package record

import "time"

// Visit is one job with everything recorded about it. The children carry no
// shop and job number of their own: the writer takes them from the job.
type Visit struct {
	Job       Job
	Glass     []Glass
	Attempts  []Attempt
	Readings  []Reading
	Scans     []Scan
	Faults    []Fault
	RoadTests []RoadTest
	Documents []Document

	// JobLost leaves the job's own row unwritten, as when it got lost on the
	// way: its children then hang in the air.
	JobLost bool
}

// Job is one visit of one vehicle. A zero time, number or text is missing.
type Job struct {
	Shop, No          string
	VIN               string
	ModelYear         int
	Make, Model       string
	OdometerKM        int
	OpenedAt          time.Time
	ClosedAt          time.Time
	ClosedAsDate      bool // only the day was written down
	Reason, Complaint string
	Insurer, ClaimNo  string
	ComebackOf        string
	Technician        string
}

// Glass is one pane fitted in a job.
type Glass struct {
	Position, Source        string
	Brand, PartNo, Supplier string
	Bracket                 string
	InstalledAt             time.Time
	DriveAwayMin            int
	Installer               string
}

// Attempt is one attempt to calibrate one system.
type Attempt struct {
	System, Position                   string
	No                                 int
	Method                             string
	StartedAt, EndedAt                 time.Time
	Outcome                            string
	FailureCode, FailureText           string
	Technician, Bay, Equipment, Target string
	SoftwareVersion, Procedure         string
	Provider                           string
}

// Owns tells whether the reading was taken for this attempt.
func (a Attempt) Owns(r Reading) bool {
	return a.System == r.System && a.Position == r.Position && a.No == r.AttemptNo
}

// Reading is one measured quantity. AttemptNo 0 means that it belongs to the
// whole job. Value and bounds are kept as they were written, in Unit.
type Reading struct {
	System, Position  string
	AttemptNo         int
	Quantity          string
	Value, Unit       string
	SpecLow, SpecHigh string
}

// Scan is one reading of the vehicle's modules.
type Scan struct {
	No                int
	Stage             string
	ScannedAt         time.Time
	Polled, Responded int
	Technician        string
}

// Fault is one trouble code read by a scan.
type Fault struct {
	ScanNo                              int
	Module, Code, Status, System, Words string
}

// RoadTest is one drive to prove a calibration.
type RoadTest struct {
	No                 int
	StartedAt, EndedAt time.Time
	DistanceKM         string
	Outcome            string
	Technician, Note   string
}

// Document is one paper or file kept with a job.
type Document struct {
	Kind, FileName, SHA256 string
	AddedAt                time.Time
	AddedAsDate            bool // only the day was written down
}

// EquipmentCheck is one verification of a stand, target or other tool. DueAt
// is written as a date.
type EquipmentCheck struct {
	Shop, Equipment  string
	CheckedAt, DueAt time.Time
	Outcome, Note    string
}

// Action is something done about quality.
type Action struct {
	Shop, SubjectKind, Subject string
	TakenAt                    time.Time
	What, By                   string
}
