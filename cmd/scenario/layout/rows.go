package layout

import (
	"strconv"
	"time"
)

// Kind is the name of a kind of record: of its file and of its columns.
type Kind struct {
	Name    string
	Columns []string
}

// Kinds lists the nine kinds with their columns, in the order of the layout.
var Kinds = []Kind{
	{"jobs", []string{"shop", "job_no", "vin", "model_year", "make", "model", "odometer_km", "opened_at", "closed_at",
		"reason", "complaint", "insurer", "claim_no", "comeback_of", "technician"}},
	{"glass", []string{"shop", "job_no", "position", "source", "brand", "part_no", "supplier", "bracket", "installed_at",
		"drive_away_min", "installer"}},
	{"calibrations", []string{"shop", "job_no", "system", "position", "attempt_no", "method", "started_at", "ended_at",
		"outcome", "failure_code", "failure_text", "technician", "bay", "equipment", "target", "software_version",
		"procedure", "provider"}},
	{"measurements", []string{"shop", "job_no", "system", "position", "attempt_no", "quantity", "value", "unit",
		"spec_low", "spec_high"}},
	{"scans", []string{"shop", "job_no", "scan_no", "stage", "scanned_at", "modules_polled", "modules_responded",
		"technician"}},
	{"faults", []string{"shop", "job_no", "scan_no", "module", "code", "status", "system", "description"}},
	{"road_tests", []string{"shop", "job_no", "test_no", "started_at", "ended_at", "distance_km", "outcome",
		"technician", "note"}},
	{"documents", []string{"shop", "job_no", "kind", "file_name", "sha256", "added_at"}},
	{"equipment_checks", []string{"shop", "equipment", "checked_at", "outcome", "due_at", "note"}},
}

func (j Job) row(to []string) []string {
	return append(to, j.VIN, number(j.ModelYear), j.Make, j.Model, number(j.OdometerKM), moment(j.OpenedAt),
		dated(j.ClosedAt, j.ClosedAsDate), j.Reason, j.Complaint, j.Insurer, j.ClaimNo, j.ComebackOf, j.Technician)
}

func (g Glass) row(to []string) []string {
	return append(to, g.Position, g.Source, g.Brand, g.PartNo, g.Supplier, g.Bracket, moment(g.InstalledAt),
		number(g.DriveAwayMin), g.Installer)
}

func (a Attempt) row(to []string) []string {
	return append(to, a.System, a.Position, number(a.No), a.Method, moment(a.StartedAt), moment(a.EndedAt), a.Outcome,
		a.FailureCode, a.FailureText, a.Technician, a.Bay, a.Equipment, a.Target, a.SoftwareVersion, a.Procedure, a.Provider)
}

func (r Reading) row(to []string) []string {
	return append(to, r.System, r.Position, number(r.AttemptNo), r.Quantity, r.Value, r.Unit, r.SpecLow, r.SpecHigh)
}

func (s Scan) row(to []string) []string {
	return append(to, number(s.No), s.Stage, moment(s.ScannedAt), number(s.Polled), number(s.Responded), s.Technician)
}

func (f Fault) row(to []string) []string {
	return append(to, number(f.ScanNo), f.Module, f.Code, f.Status, f.System, f.Words)
}

func (t RoadTest) row(to []string) []string {
	return append(to, number(t.No), moment(t.StartedAt), moment(t.EndedAt), t.DistanceKM, t.Outcome, t.Technician, t.Note)
}

func (d Document) row(to []string) []string {
	return append(to, d.Kind, d.FileName, d.SHA256, dated(d.AddedAt, d.AddedAsDate))
}

func (c EquipmentCheck) row(to []string) []string {
	return append(to, c.Shop, c.Equipment, moment(c.CheckedAt), c.Outcome, dated(c.DueAt, true), c.Note)
}

// number writes 0 as missing: no count or measure here is a meaningful zero.
func number(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// moment writes what a person noted to the minute without seconds, and what a
// machine noted with them.
func moment(t time.Time) string {
	switch {
	case t.IsZero():
		return ""
	case t.Second() == 0:
		return t.Format("2006-01-02 15:04")
	default:
		return t.Format("2006-01-02 15:04:05")
	}
}

func dated(t time.Time, dateOnly bool) string {
	if dateOnly && !t.IsZero() {
		return t.Format("2006-01-02")
	}
	return moment(t)
}
