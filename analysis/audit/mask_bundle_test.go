package audit

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/sample"
	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// talk is what people write where they can: codes of the shop's technicians, one of another insurer's jobs among them, and
// another vehicle and claim.
const talk = "asked t07 and T08 about wzzzzz8k9aa000009 (bcl-1)"

// talkative is a history in which every column that takes words holds that talk. Job 1 is Alder Mutual's.
func talkative(t *testing.T) *history.History {
	t.Helper()
	return testkit.History(t, testkit.Records{
		"jobs": `
			shop,job_no,vin,make,model,opened_at,closed_at,complaint,insurer,claim_no,technician
			hull,1,` + vinOne + `,` + talk + `,` + talk + `,2026-01-05 08:00,2026-01-05 16:00,` + talk + `,Alder Mutual,ACL-1,T07
			hull,2,` + vinBirch + `,Corvus,Lark,2026-01-06 08:00,2026-01-06 16:00,,Birch Cover,BCL-1,T08`,
		"glass": `
			shop,job_no,brand,part_no,supplier,installer
			hull,1,` + talk + `,` + talk + `,` + talk + `,T01`,
		"calibrations": `
			shop,job_no,started_at,outcome,failure_code,failure_text,technician,bay,equipment,target,software_version,procedure
			hull,1,2026-01-05 11:00,completed,` + strings.Repeat(talk+`,`, 2) + `T07,` + strings.Repeat(talk+`,`, 4) + talk,
		"measurements": `
			shop,job_no,system,attempt_no,quantity,value
			hull,1,front_camera,1,target_distance,1500`,
		"scans": `
			shop,job_no,stage,scanned_at,technician
			hull,1,post,2026-01-05 15:00,T03`,
		"faults": `
			shop,job_no,module,code,system,description
			hull,1,` + talk + `,` + talk + `,front_camera,` + talk,
		"road_tests": `
			shop,job_no,started_at,technician,note
			hull,1,2026-01-05 13:00,T04,` + talk,
		"documents": `
			shop,job_no,file_name
			hull,1,` + talk + `.jpg`,
		"equipment_checks": `
			shop,equipment,checked_at,outcome,note
			hull,` + talk + `,2026-01-01 08:00,failed,` + talk,
	})
}

// secrets are the raw values, each as a pattern that finds it whatever its case.
var secrets = map[mask.Field]*regexp.Regexp{
	mask.Technician: regexp.MustCompile(`(?i)\bT0[13478]\b`),
	mask.VIN:        regexp.MustCompile(`(?i)` + vinOne + `|` + vinBirch),
	mask.Claim:      regexp.MustCompile(`(?i)[AB]CL-1`),
}

// After masking no masked value is left in any file, nor in any part of the workbook, and what is not masked stays.
func TestNoMaskedValueIsLeftAnywhere(t *testing.T) {
	h := talkative(t)
	for _, fields := range [][]mask.Field{nil, {mask.Technician}, {mask.VIN}, {mask.Claim}, {mask.Claim, mask.Technician, mask.VIN}, mask.Fields} {
		out := filepath.Join(t.TempDir(), "out")
		_, err := Bundle(t.Context(), h, Options{Insurer: "Alder Mutual", Out: out, Key: testKey(t), Mask: fields,
			Sample: &sample.Request{Share: 1}})
		if err != nil {
			t.Fatal(err)
		}
		left := map[mask.Field]string{}
		for name, text := range contents(t, out) {
			for field, pattern := range secrets {
				if found := pattern.FindString(text); found != "" {
					left[field] = name + " shows " + found
				}
			}
		}
		for field := range secrets {
			isMasked := slices.Contains(fields, field)
			if isMasked && left[field] != "" || !isMasked && left[field] == "" {
				t.Errorf("masked %v: of %s %q is left", fields, field, left[field])
			}
		}
		if report, err := proof.Verify(out, proof.VerifyOptions{}); err != nil || len(report.Discrepancies) > 0 {
			t.Errorf("masked %v: it does not verify: %v, %v", fields, report, err)
		}
	}
}

// Every column that takes words is searched: a new one must be searched too, or be settled with a reason.
func TestEveryColumnOfWordsIsSearched(t *testing.T) {
	h := talkative(t)
	out := filepath.Join(t.TempDir(), "out")
	_, err := Bundle(t.Context(), h, Options{Insurer: "Alder Mutual", Out: out, Key: testKey(t), Mask: []mask.Field{mask.Technician}})
	if err != nil {
		t.Fatal(err)
	}
	beginning := "asked " + rowsOf(t, out, "jobs")[0]["technician"] + " and technician-"
	words, searched, named := map[string]bool{}, map[string]bool{}, mask.ColumnSet("lookup found_sha256 copied_as")
	for _, table := range tables {
		columns := table.describe()
		for _, row := range rowsOf(t, out, table.name) {
			for name, text := range row {
				searched[name] = searched[name] || strings.Contains(text, beginning)
			}
		}
		for _, c := range columns {
			named[c.Name] = true
		}
		err := table.each(t.Context(), h, func(row []any) error { // by now of all jobs
			for i, c := range columns {
				_, isText := row[i].(string)
				words[c.Name] = words[c.Name] || isText && !mask.SettledColumns[c.Name] && mask.Columns[c.Name] != mask.Technician
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for name, takesWords := range words {
		if isOfForm := name == "vin" || name == "claim_no"; takesWords && !isOfForm && !searched[name] {
			t.Errorf("the column %s takes words, and none of the talk was masked in it", name)
		}
	}
	for name := range mask.SettledColumns {
		if !named[name] {
			t.Errorf("the settled column %s is in no table", name)
		}
	}
}
