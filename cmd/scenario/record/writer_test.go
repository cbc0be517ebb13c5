package record

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// RFC 4180: fields with quotes, commas or line breaks are quoted, quotes
// doubled. A missing value is an empty field, a lost job leaves its children.
func TestWriter(t *testing.T) {
	dir := t.TempDir()
	w, err := Create(dir, false)
	if err != nil {
		t.Fatal(err)
	}
	noon := time.Date(2026, 3, 9, 12, 0, 0, 0, time.UTC)
	w.Visit(&Visit{Job: Job{Shop: "A", No: "1", OpenedAt: noon, ClosedAt: noon, ClosedAsDate: true, Reason: "other", Insurer: `Say "hi", Ltd`}})
	w.Visit(&Visit{Job: Job{Shop: "A", No: "2"}, JobLost: true,
		Scans: []Scan{{No: 1, Stage: "pre", ScannedAt: noon.Add(7 * time.Second), Polled: 300}}})
	w.Check(EquipmentCheck{Shop: "A", Equipment: "S1", CheckedAt: noon, DueAt: noon, Outcome: "passed"})
	w.Action(Action{Shop: "A", SubjectKind: "equipment", Subject: "S1", TakenAt: noon, What: "squared", By: "T01"})
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"jobs.csv": "shop,job_no,vin,model_year,make,model,odometer_km,opened_at,closed_at,reason,complaint,insurer,claim_no,comeback_of,technician\n" +
			"A,1,,,,,,2026-03-09 12:00,2026-03-09,other,,\"Say \"\"hi\"\", Ltd\",,,\n",
		"scans.csv":            "shop,job_no,scan_no,stage,scanned_at,modules_polled,modules_responded,technician\nA,2,1,pre,2026-03-09 12:00:07,300,,\n",
		"equipment_checks.csv": "shop,equipment,checked_at,outcome,due_at,note\nA,S1,2026-03-09 12:00,passed,2026-03-09,\n",
		"actions.csv":          "shop,subject_kind,subject,taken_at,what,by\nA,equipment,S1,2026-03-09 12:00,squared,T01\n",
		"glass.csv":            "shop,job_no,position,source,brand,part_no,supplier,bracket,installed_at,drive_away_min,installer\n",
	} {
		got, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, string(got)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// What cannot be written is reported when the files are closed.
func TestWriterReportsAFullDisk(t *testing.T) {
	w, err := Create(t.TempDir(), false)
	if err != nil {
		t.Fatal(err)
	}
	for _, layer := range w.sheets["jobs"].layers[1:] {
		if err := layer.Close(); err != nil {
			t.Fatal(err)
		}
	}
	w.Visit(&Visit{Job: Job{Shop: "A", No: "1"}})
	if err := w.Close(); err == nil {
		t.Error("writing into a closed file was no error")
	}
}
