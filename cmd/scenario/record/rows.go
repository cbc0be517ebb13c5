package record

import (
	"strconv"
	"time"
)

// cells are a row's texts by column; a column of the layout that is not among them is missing.
type cells map[string]string

func (j Job) fill(row cells) {
	row["vin"], row["model_year"], row["make"], row["model"] = j.VIN, number(j.ModelYear), j.Make, j.Model
	row["odometer_km"], row["opened_at"], row["closed_at"] = number(j.OdometerKM), moment(j.OpenedAt), dated(j.ClosedAt, j.ClosedAsDate)
	row["reason"], row["complaint"], row["insurer"], row["claim_no"] = j.Reason, j.Complaint, j.Insurer, j.ClaimNo
	row["comeback_of"], row["technician"] = j.ComebackOf, j.Technician
}

func (g Glass) fill(row cells) {
	row["position"], row["source"], row["brand"], row["part_no"], row["supplier"] = g.Position, g.Source, g.Brand, g.PartNo, g.Supplier
	row["bracket"], row["installed_at"] = g.Bracket, moment(g.InstalledAt)
	row["drive_away_min"], row["installer"] = number(g.DriveAwayMin), g.Installer
}

func (a Attempt) fill(row cells) {
	row["system"], row["position"], row["attempt_no"], row["method"] = a.System, a.Position, number(a.No), a.Method
	row["started_at"], row["ended_at"], row["outcome"] = moment(a.StartedAt), moment(a.EndedAt), a.Outcome
	row["failure_code"], row["failure_text"], row["technician"], row["bay"] = a.FailureCode, a.FailureText, a.Technician, a.Bay
	row["equipment"], row["target"], row["software_version"] = a.Equipment, a.Target, a.SoftwareVersion
	row["procedure"], row["provider"] = a.Procedure, a.Provider
}

func (r Reading) fill(row cells) {
	row["system"], row["position"], row["attempt_no"], row["quantity"] = r.System, r.Position, number(r.AttemptNo), r.Quantity
	row["value"], row["unit"], row["spec_low"], row["spec_high"] = r.Value, r.Unit, r.SpecLow, r.SpecHigh
}

func (s Scan) fill(row cells) {
	row["scan_no"], row["stage"], row["scanned_at"] = number(s.No), s.Stage, moment(s.ScannedAt)
	row["modules_polled"], row["modules_responded"], row["technician"] = number(s.Polled), number(s.Responded), s.Technician
}

func (f Fault) fill(row cells) {
	row["scan_no"], row["module"], row["code"] = number(f.ScanNo), f.Module, f.Code
	row["status"], row["system"], row["description"] = f.Status, f.System, f.Words
}

func (t RoadTest) fill(row cells) {
	row["test_no"], row["started_at"], row["ended_at"] = number(t.No), moment(t.StartedAt), moment(t.EndedAt)
	row["distance_km"], row["outcome"], row["technician"], row["note"] = t.DistanceKM, t.Outcome, t.Technician, t.Note
}

func (d Document) fill(row cells) {
	row["kind"], row["file_name"], row["sha256"], row["added_at"] = d.Kind, d.FileName, d.SHA256, dated(d.AddedAt, d.AddedAsDate)
}

func (c EquipmentCheck) fill(row cells) {
	row["shop"], row["equipment"], row["checked_at"] = c.Shop, c.Equipment, moment(c.CheckedAt)
	row["outcome"], row["due_at"], row["note"] = c.Outcome, dated(c.DueAt, true), c.Note
}

func (a Action) fill(row cells) {
	row["shop"], row["taken_at"], row["subject_kind"], row["subject"] = a.Shop, moment(a.TakenAt), a.SubjectKind, a.Subject
	row["what"], row["by"] = a.What, a.By
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
