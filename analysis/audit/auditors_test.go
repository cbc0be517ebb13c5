package audit

import (
	"fmt"
	"html"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/audit/sample"
	"plumbline/analysis/testkit"
)

// command takes a command off the page for auditors, with the job that it is about put in, and runs it in the bundle.
func command(t *testing.T, dir, start string, job record.Job) string {
	t.Helper()
	page := files(t, dir)["how-to-check.html"]
	for _, block := range regexp.MustCompile(`(?s)<pre>(.*?)</pre>`).FindAllStringSubmatch(page, -1) {
		text := html.UnescapeString(block[1])
		if !strings.HasPrefix(text, start) {
			continue
		}
		text = strings.NewReplacer("SHOP,JOB_NO", job.Shop+","+job.JobNo, "SHOP JOB_NO", job.Shop+" "+job.JobNo).Replace(text)
		run := exec.Command("sh", "-c", text)
		run.Dir = dir
		out, err := run.Output()
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		hash, _, _ := strings.Cut(string(out), " ")
		return hash
	}
	t.Fatalf("the page has no command that begins with %s", start)
	return ""
}

// What the page tells auditors to type gives what it says.
func TestPageForAuditorsIsTrue(t *testing.T) {
	dir, _ := made(t, Options{Sample: &sample.Request{AQL: "6.5", Share: 0.5}})
	report, err := proof.Verify(dir, proof.VerifyOptions{Job: "hull/A-2"})
	if err != nil {
		t.Fatal(err)
	}
	if got := command(t, dir, `(printf '\0'`, record.Job{Shop: "hull", JobNo: "A-2"}); got != report.Proof.Leaf {
		t.Errorf("the leaf of A-2 is %s by hand, %s by verify", got, report.Proof.Leaf)
	}
	drawn := rowsOf(t, dir, "sample")
	for _, row := range drawn {
		if row["shop"] != "hull" {
			continue
		}
		if got := command(t, dir, "printf '%s|", record.Job{Shop: row["shop"], JobNo: row["job_no"]}); got != row["drawn_by"] {
			t.Errorf("%s is drawn by %s by hand, %s in the sample", row["job_no"], got, row["drawn_by"])
		}
	}
	if len(drawn) < 3 {
		t.Errorf("only %d jobs were drawn", len(drawn))
	}
}

// Whatever people call insurers, shops and jobs: the bundle is whole, gives the names back and runs nothing.
func TestNamesOfEveryKind(t *testing.T) {
	const insurer = `=1+1 <script>"'/..\ ` + "\u202e\U0001F600"
	jobs, attempts := "shop,job_no,opened_at,insurer", "shop,job_no,started_at,bay"
	var names []string
	for _, name := range testkit.Nasty {
		name = strings.TrimSpace(strings.ReplaceAll(name, "\n", "")) // a text is trimmed, and the test's own lines end there
		if name == "" {
			continue
		}
		name += "\x07"
		names = append(names, name)
		jobs += fmt.Sprintf("\n%s,%s,2026-01-05 08:00,%s", inCSV(name), inCSV(name), inCSV(insurer))
		attempts += fmt.Sprintf("\n%s,%s,2026-01-05 08:00,%s", inCSV(name), inCSV(name), inCSV(name))
	}
	h := testkit.History(t, testkit.Records{"jobs": jobs, "calibrations": attempts})
	out := filepath.Join(t.TempDir(), "out")
	if _, err := Bundle(t.Context(), h, Options{Insurer: insurer, Out: out, Sample: &sample.Request{Share: 1}}); err != nil {
		t.Fatal(err)
	}
	bays := map[string]bool{}
	for _, row := range rowsOf(t, out, "attempts") {
		if row["shop"] != row["job_no"] || row["shop"] != row["bay"] {
			t.Errorf("one name is three: %q, %q, %q", row["shop"], row["job_no"], row["bay"])
		}
		bays[record.Restored(row["bay"])] = true
	}
	for _, name := range names {
		report, err := proof.Verify(out, proof.VerifyOptions{Job: name + "/" + name})
		if err != nil || len(report.Discrepancies) > 0 || report.Proof == nil || !bays[name] {
			t.Errorf("%q: %v, %v, bay %v", name, report, err, bays[name])
		}
	}
	book := openBook(t, filepath.Join(out, "audit.xlsx"))
	if got := value(t, book, "jobs", "A2"); strings.ContainsAny(got, "\x07\ufffd") || !strings.HasSuffix(got, "[U+0007]") {
		t.Errorf("in the workbook a shop is %q", got)
	}
	for page, text := range files(t, out) {
		if strings.HasSuffix(page, ".html") && (strings.ContainsAny(text, "\u202e\x07") || strings.Contains(text, "<script>")) {
			t.Errorf("%s holds the names as they are", page)
		}
	}
}

func inCSV(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }

func TestJournalNamesOnlyFilesThatGaveRows(t *testing.T) {
	dir, _ := made(t, Options{})
	m, canonical, err := proof.DecodeManifest([]byte(files(t, dir)[proof.ManifestName]))
	if err != nil || !canonical {
		t.Fatalf("canonical %v, %v", canonical, err)
	}
	got := map[string]int64{}
	for _, file := range m.Journal {
		got[file.Kind] += file.RowsInBundle
	}
	// the checks of equipment belong to no job
	want := map[string]int64{"jobs": 6, "calibrations": 7, "measurements": 2, "scans": 5, "faults": 1, "glass": 1,
		"road_tests": 2, "documents": 6}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	for _, name := range []string{`C:\export\may\jobs.csv`, "/srv/export/jobs.csv", "jobs.csv"} {
		if baseName(name) != "jobs.csv" {
			t.Errorf("a folder's name is left in %s", baseName(name))
		}
	}
}
