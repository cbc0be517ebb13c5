package audit

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/audit/sample"
)

// An insurer finds its claim number and the vehicle in every list, and each job has a sheet that says what the tables say.
func TestEveryListNamesClaimAndVehicle(t *testing.T) {
	dir, _ := made(t, Options{Sample: &sample.Request{Share: 0.01}})
	claim, vin := masked(t, dir, "jobs", "claim_no"), masked(t, dir, "jobs", "vin")
	lists := []string{"sample"}
	for _, table := range tables[1:] {
		lists = append(lists, table.name)
	}
	for _, list := range lists {
		for _, row := range rowsOf(t, dir, list) {
			if no := row["job_no"]; row["claim_no"] != claim[no] || row["vin"] != vin[no] || vin[no] == "" {
				t.Errorf("%s: job %s is claim %q of vehicle %q, want %q, %q", list, no, row["claim_no"], row["vin"], claim[no], vin[no])
			}
		}
	}
	all := files(t, dir)
	for no, number := range claim {
		if no == "A-6" {
			continue // of another shop, and its claim number begins with an apostrophe
		}
		text := all["jobs/hull/"+no+".html"]
		for page, text := range map[string]string{"its sheet": text, "jobs.html": all["jobs.html"], "sample.html": all["sample.html"]} {
			if !strings.Contains(text, number) || !strings.Contains(text, vin[no]) {
				t.Errorf("%s does not name claim and vehicle of %s", page, no)
			}
		}
	}
	for _, want := range []string{"<h2>What was measured</h2>", "<td>target distance</td>", "<td>1500.5</td>", "<dd>windshield replacement</dd>",
		"<td>C1101</td>", "<td>pre.txt</td>", "<p>Nothing of what the policy asks for.</p>", "Looked at by"} {
		if !strings.Contains(all["jobs/hull/A-1.html"], want) {
			t.Errorf("the sheet of A-1 does not say %s", want)
		}
	}
	for sheet, want := range map[string]string{"jobs/hull/A-2.html": "<strong>Pre-scan</strong>", "jobs/h_u__l-8ef91e1f/A-6.html": "so that it is not judged"} {
		if !strings.Contains(all[sheet], want) {
			t.Errorf("%s does not say %s", sheet, want)
		}
	}
}

// The cover says what is asked for in plain words, how complete the record is with its interval (Wilson 1927: 1 of 5 lies
// between 3.6 and 62.4 %), and which jobs are behind each missing thing.
func TestCoverSaysWhatIsMissingWhere(t *testing.T) {
	dir, _ := made(t, Options{})
	cover, err := os.ReadFile(filepath.Join(dir, "cover.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"1 of 5 (20.0 %)", "3.6 to 62.4 % with 95 % confidence (Wilson)", "<p>Every closed job with a calibration:</p>",
		"<li>Passed road test after the last completed work</li>", `ACL-2, <a href="jobs/hull/A-2.html">hull/A-2</a>`, `href="missing.html"`} {
		if !strings.Contains(string(cover), want) {
			t.Errorf("the cover does not say %s", want)
		}
	}
}

// Two jobs whose numbers differ in capitals only have two sheets on every file system.
func TestSheetNames(t *testing.T) {
	names := newSheetNames()
	seen := map[string]bool{}
	for _, no := range []string{"a-1", "A-1", "a/1", "CON", ".."} {
		name := names.name(record.Job{Shop: "north", JobNo: no})
		if seen[strings.ToLower(name)] || name != names.name(record.Job{Shop: "north", JobNo: no}) || !filepath.IsLocal(name) {
			t.Errorf("the sheet of %s is %s", no, name)
		}
		seen[strings.ToLower(name)] = true
	}
}
