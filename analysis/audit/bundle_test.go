package audit

import (
	"archive/zip"
	"bytes"
	"io"
	"maps"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/sample"
)

func TestBundleIsTheSameToTheByte(t *testing.T) {
	key := testKey(t)
	o := Options{Key: key, Mask: []mask.Field{mask.VIN}, Sample: &sample.Request{AQL: "6.5", Share: 0.5}}
	first, _ := made(t, o)
	second, _ := made(t, o)
	if diff := cmp.Diff(files(t, first), files(t, second)); diff != "" {
		t.Errorf("first -, second +\n%s", diff)
	}
}

// contents gives every file of a bundle that has texts: the workbook part by part, for packed no word could be found in
// it, and without the signature, in whose bytes any word may stand by chance.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := files(t, dir)
	book := all["audit.xlsx"]
	archive, err := zip.NewReader(bytes.NewReader([]byte(book)), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range archive.File {
		from, err := part.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(from)
		if err != nil {
			t.Fatal(err)
		}
		all["audit.xlsx/"+part.Name] = string(text)
	}
	delete(all, "audit.xlsx")
	delete(all, proof.SignatureName)
	return all
}

func TestNothingOfAnyoneElses(t *testing.T) {
	dir, _ := made(t, Options{Sample: &sample.Request{AQL: "6.5"}})
	for name, text := range contents(t, dir) {
		for _, word := range foreign {
			if strings.Contains(text, word) {
				t.Errorf("%s holds %q", name, word)
			}
		}
	}
	// The scan must be able to find: in Birch Cover's own bundle the words are there.
	other, _ := made(t, Options{Insurer: "Birch Cover"})
	found := map[string]bool{}
	for _, text := range contents(t, other) {
		for _, word := range foreign {
			found[word] = found[word] || strings.Contains(text, word)
		}
	}
	for _, word := range foreign {
		if !found[word] && !strings.HasPrefix(word, "NX-") { // those are in nobody's bundle
			t.Errorf("the scan cannot find %q where it is", word)
		}
	}
}

func TestLinksToOtherJobs(t *testing.T) {
	dir, result := made(t, Options{})
	jobs := map[string]string{}
	for _, row := range rowsOf(t, dir, "jobs") {
		jobs[row["job_no"]] = strings.Join([]string{row["comeback_of"], row["returned_at"], row["return_class"],
			row["return_job_no"], row["return_visits"]}, "|")
	}
	want := map[string]string{
		"A-1": "|2026-01-25 08:00:00|probable|A-2|1",
		"A-2": "||||0",
		"A-3": "another job||||0",
		"A-4": "|2026-01-17 08:00:00|probable||1", // the visit carries no insurer
		"A-5": "||||0",                            // Birch Cover's visit is not told of
		"A-6": "||||0",
	}
	if diff := cmp.Diff(want, jobs); diff != "" {
		t.Errorf("comeback_of, returned_at, return_class, return_job_no, return_visits: -want +got\n%s", diff)
	}
	var ties []string
	for _, row := range rowsOf(t, dir, "findings") {
		if row["kind"] == "comeback" || row["kind"] == "overlapping_work" {
			ties = append(ties, strings.Join([]string{row["job_no"], row["kind"], row["class"], row["severity"],
				row["prior_job"], row["prior_job_no"], row["days"], row["detail"]}, "|"))
			if (row["finding"] == "") != (row["prior_job"] == "another_job") {
				t.Errorf("%s on %s is called %q", row["kind"], row["job_no"], row["finding"])
			}
		}
	}
	wantTies := []string{
		"A-2|comeback|probable|high||A-1|19.666667|complaint about a system calibrated then",
		"A-3|comeback|||another_job|||ties to a job that is not in this bundle",
		"A-4|overlapping_work||medium|another_job|||shares a moment with another job",
	}
	if diff := cmp.Diff(wantTies, ties); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if len(result.Notices) != 0 {
		t.Errorf("notices: %v", result.Notices)
	}
}

func TestCompletenessByCommonPractice(t *testing.T) {
	dir, result := made(t, Options{})
	got := map[string][]string{}
	for _, row := range rowsOf(t, dir, "missing") {
		got[row["job_no"]] = append(got[row["job_no"]], strings.TrimRight(row["what"]+" "+row["subject"], " "))
	}
	want := map[string][]string{
		"A-2": {"document calibration_report", "document post_scan_report", "document pre_scan_report", "equipment_verified",
			"procedure_named", "road_test", "scan pre", "sequence post_scan_after"},
		"A-3": {"document calibration_report", "document post_scan_report", "document pre_scan_report", "equipment_verified",
			"road_test", "scan post", "scan pre"}, // the stand's check of January was due again on 1 February
		"A-4": {"document calibration_report", "document post_scan_report", "document pre_scan_report", "road_test", "scan post",
			"scan pre"},
		"A-5": {"document calibration_report", "document post_scan_report", "document pre_scan_report",
			"sequence road_test_between"}, // driven after the post-scan; the last work was dynamic
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	c := result.Completeness
	if c.Jobs != 6 || c.Due != 5 || c.Complete != 1 || c.Lacking[0] != (policy.Lack{Jobs: 4, Subject: "calibration_report", What: "document"}) {
		t.Errorf("completeness %+v", c)
	}
}

func TestSHA256SumAgrees(t *testing.T) {
	dir, _ := made(t, Options{Key: testKey(t)})
	check := exec.Command("sha256sum", "--strict", "-c", "SHA256SUMS")
	check.Dir = dir
	out, err := check.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	listed := strings.Count(string(out), ": OK\n")
	if held := len(files(t, dir)); listed != held-1 {
		t.Errorf("%d files checked of %d", listed, held)
	}
}

func TestBundleHoldsWhatItSays(t *testing.T) {
	dir, result := made(t, Options{Key: testKey(t), Sample: &sample.Request{AQL: "6.5"}})
	want := []string{"SHA256SUMS", "audit.xlsx", "cover.html", "csv/attempts.csv", "csv/documents.csv", "csv/faults.csv",
		"csv/findings.csv", "csv/glass.csv", "csv/jobs.csv", "csv/measurements.csv", "csv/missing.csv", "csv/road_tests.csv",
		"csv/sample.csv", "csv/scans.csv", "how-to-check.html", "jobs.html", "jobs/h_u__l-8ef91e1f/A-6.html",
		"jobs/hull/A-1.html", "jobs/hull/A-2.html", "jobs/hull/A-3.html", "jobs/hull/A-4.html", "jobs/hull/A-5.html",
		"manifest.json", "manifest.sig", "missing.html", "policy.toml", "sample.html",
		"signer.pub"}
	if diff := cmp.Diff(want, slices.Sorted(maps.Keys(files(t, dir)))); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	wantRows := []proof.RowCount{{Rows: 6, Table: "jobs"}, {Rows: 7, Table: "attempts"}, {Rows: 2, Table: "measurements"}, {Rows: 5, Table: "scans"}, {Rows: 1, Table: "faults"}, {Rows: 1, Table: "glass"},
		{Rows: 2, Table: "road_tests"}, {Rows: 6, Table: "documents"}, {Rows: 30, Table: "findings"}, {Rows: 25, Table: "missing"}}
	if diff := cmp.Diff(wantRows, result.Rows); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
