package intake

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The desk's list and the scan tool's export speak of one visit, each through its own profile and from a form of file of
// its own. What one of them leaves empty the other fills; where both speak, the later counts, both values and both files
// are told, and the earlier stays readable. It goes back where it was when the second import is undone.
func TestSameVisitFromTwoSources(t *testing.T) {
	desk := write(t, "desk.toml", mdyJobs+oneDay+"make = \"Make\"\nodometer_km = \"Km\"\ntechnician = \"Lead\"\n"+
		"[[record]]\nkind = \"scans\"\n[record.fields]\nscan_no = { constant = \"1\" }\nstage = { constant = \"pre\" }\nscanned_at = \"Scan\"\n")
	tool := write(t, "tool.toml", "[shared]\nshop = { constant = \"n\" }\njob_no = \"Order\"\n[[record]]\nkind = \"scans\"\n[record.fields]\n"+
		"scan_no = { constant = \"1\" }\nstage = { constant = \"pre\" }\nscanned_at = \"Start\"\nmodules_polled = \"Asked\"\n"+
		"[[record]]\nkind = \"jobs\"\n[record.fields]\nopened_at = \"Start\"\nreason = { constant = \"recheck\" }\nvin = \"VIN\"\nmake = \"Brand\"\nodometer_km = \"Odo\"\n")
	h := emptyHistory(t)
	first := imported(t, h, Options{Profile: desk, Files: []string{write(t, "desk.csv", "RO,In,Make,Km,Lead,Scan\n1,3/9/2026 10:00 AM,Orlane,500,T01,3/9/2026 10:05 AM\n2,3/9/2026,Pellor,,,\n")}})
	second := imported(t, h, Options{Profile: tool, Files: []string{asSheet(t, "Order,Start,VIN,Brand,Odo,Asked\n1,2026-03-09 10:05,1M8GDM9AXKP042788,,501,40\n")}})
	want := "1 2026-03-09 10:05:00 1M8GDM9AXKP042788 Orlane 501.0 T01 | 40"
	got := one(t, h, `select concat_ws(' ', job_no, opened_at, vin, make, odometer_km, technician) || ' | ' ||
		(select modules_polled from scans where job_no = '1') from jobs where job_no = '1'`)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	var told []string
	for _, notice := range second.Notices {
		told = append(told, baseNames(notice))
	}
	wantTold := []string{
		`list.xlsx Sheet1!row 2: odometer_km of jobs is "501.0" here and was "500.0" in desk.csv; the later import counts, the earlier value is kept as superseded`,
		`list.xlsx Sheet1!row 2: opened_at of jobs is "2026-03-09 10:05:00" here and was "2026-03-09 10:00:00" in desk.csv; the later import counts, the earlier value is kept as superseded`,
	}
	if diff := cmp.Diff(wantTold, told); diff != "" {
		t.Error(diff)
	}
	if got := one(t, h, "select opened_at || ' ' || odometer_km || ' ' || (replaced_by - from_file) from superseded.jobs"); !strings.HasPrefix(got, "2026-03-09 10:00:00 500.0") {
		t.Errorf("superseded: %s", got)
	}
	if _, err := Undo(context.Background(), h, second.Import, now); err != nil {
		t.Fatal(err)
	}
	if got := one(t, h, "select concat_ws(' ', opened_at, vin, odometer_km) from jobs where job_no = '1'"); got != "2026-03-09 10:00:00 500.0" {
		t.Errorf("after the undo of the second: %s, first import %d", got, first.Import)
	}
}

// baseNames takes the folders out of a message.
func baseNames(text string) string {
	words := strings.Split(text, " ")
	for i, word := range words {
		if strings.HasPrefix(word, "/") {
			words[i] = filepath.Base(word)
		}
	}
	return strings.Join(words, " ")
}

// A source in the record layout says all that it knows of a record: its row replaces what a profile brought, and what a
// profile brings later fills the gaps that it left. Either way the earlier stays readable.
func TestProfileAndRecordLayoutMeet(t *testing.T) {
	profile := write(t, "desk.toml", plainJobs+oneDay+"make = \"Make\"\nmodel = \"Model\"\n")
	desk := write(t, "desk.csv", "RO,In,Make,Model\n1,2026-03-09 10:00,Orlane,Quill\n")
	layout := write(t, "jobs.csv", "shop,job_no,opened_at,reason,make,complaint\nn,1,2026-03-09 10:00,recheck,Pellor,noise\n")
	const row = "select concat_ws(' ', make, coalesce(model, '-'), coalesce(complaint, '-')) from jobs"
	h := emptyHistory(t)
	imported(t, h, Options{Profile: profile, Files: []string{desk}})
	replaced := imported(t, h, Options{Files: []string{layout}})
	if got := one(t, h, row); got != "Pellor - noise" || replaced.Files[0].Updated != 1 {
		t.Errorf("layout after profile: %s", got)
	}
	merged := imported(t, h, Options{Profile: profile, Files: []string{desk}})
	if got := one(t, h, row); got != "Orlane Quill noise" || len(merged.Notices) != 1 || !strings.Contains(merged.Notices[0], `make of jobs is "Orlane" here and was "Pellor" in`) {
		t.Errorf("profile after layout: %s %v", got, merged.Notices)
	}
	if got := one(t, h, "select string_agg(concat_ws(' ', make, coalesce(model, '-')), ', ' order by from_file) from superseded.jobs"); got != "Orlane Quill, Pellor -" {
		t.Errorf("superseded: %s", got)
	}
}

// Only the first conflicts are told one by one; the rest are counted.
func TestManyConflictsAreCounted(t *testing.T) {
	profile := write(t, "p.toml", plainJobs+oneDay+"make = \"Make\"\n")
	list := func(brand string) string {
		content := "RO,In,Make\n"
		for i := range 30 {
			content += string(rune('A'+i)) + ",2026-03-09," + brand + "\n"
		}
		return write(t, "list.csv", content)
	}
	h := emptyHistory(t)
	imported(t, h, Options{Profile: profile, Files: []string{list("Orlane")}})
	result := imported(t, h, Options{Profile: profile, Files: []string{list("Pellor")}})
	if len(result.Notices) != mostConflicts+1 || !strings.HasSuffix(result.Notices[mostConflicts], "and 10 further conflicts in jobs") {
		t.Errorf("%d notices, the last %s", len(result.Notices), result.Notices[len(result.Notices)-1])
	}
	again := imported(t, h, Options{Profile: profile, Files: []string{list("Pellor")}})
	if again.Files[0].Unchanged != 30 || len(again.Notices) != 0 {
		t.Errorf("again: %+v %v", again.Files[0], again.Notices)
	}
}
