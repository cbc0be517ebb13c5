package audit

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/sample"
	"plumbline/analysis/testkit"
)

// masked gives the values of a column by job.
func masked(t *testing.T, dir, table, column string) map[string]string {
	t.Helper()
	values := map[string]string{}
	for _, row := range rowsOf(t, dir, table) {
		values[row["job_no"]] = row[column]
	}
	return values
}

func TestMaskedValuesStayEqualAndAreGone(t *testing.T) {
	key := testKey(t)
	dir, _ := made(t, Options{Key: key, Mask: mask.Fields, Sample: &sample.Request{AQL: "6.5"}})
	for name, text := range contents(t, dir) {
		for _, secret := range []string{vinOne, vinThree, "ACL-1", "ACL-4", "T01", "T02", "lane keeping", "HYPERLINK"} {
			if strings.Contains(text, secret) {
				t.Errorf("%s shows %q", name, secret)
			}
		}
	}
	vin, technician := masked(t, dir, "jobs", "vin"), masked(t, dir, "jobs", "technician")
	if vin["A-1"] != vin["A-2"] || vin["A-1"] == vin["A-3"] || !strings.HasPrefix(vin["A-1"], "vin-") || len(vin["A-1"]) != 20 {
		t.Errorf("tokens of VINs are %v", vin)
	}
	if technician["A-1"] != technician["A-3"] || technician["A-1"] == technician["A-2"] {
		t.Errorf("tokens of technicians are %v", technician)
	}
	if of := masked(t, dir, "attempts", "technician"); of["A-1"] != technician["A-1"] {
		t.Errorf("a technician has another token in attempts: %q and %q", of["A-1"], technician["A-1"])
	}
	if complaint := masked(t, dir, "jobs", "complaint"); complaint["A-2"] != "" {
		t.Errorf("a complaint is left: %q", complaint["A-2"])
	}
	if report, err := proof.Verify(dir, proof.VerifyOptions{}); err != nil || len(report.Discrepancies) > 0 {
		t.Errorf("a masked bundle does not verify: %v, %v", report, err)
	}
	// another key, another period: nothing can be joined
	from := testkit.Time(t, "2026-01-01 00:00")
	for name, o := range map[string]Options{"key": {Key: testKey(t)}, "period": {Key: key, From: &from}} {
		o.Mask = []mask.Field{mask.VIN}
		other, _ := made(t, o)
		if again := masked(t, other, "jobs", "vin"); again["A-1"] == vin["A-1"] || again["A-1"] != again["A-2"] {
			t.Errorf("with another %s the tokens are %v", name, again)
		}
	}
}

func TestMaskedValuesAreLookedForInOtherTexts(t *testing.T) {
	records := worldRecords()
	records["documents"] += "\nhull,A-1,photo,photo of " + vinOne + " for ACL-1.jpg,,2026-01-05 09:00"
	h := testkit.History(t, records)
	out := filepath.Join(t.TempDir(), "out")
	_, err := Bundle(t.Context(), h, Options{Insurer: "Alder Mutual", Out: out, Key: testKey(t), Mask: []mask.Field{mask.VIN, mask.Claim}})
	if err != nil {
		t.Fatal(err)
	}
	jobs := rowsOf(t, out, "jobs")[1]
	want := "photo of " + jobs["vin"] + " for " + jobs["claim_no"] + ".jpg"
	names := []string{}
	for _, row := range rowsOf(t, out, "documents") {
		names = append(names, row["file_name"])
	}
	if !slices.Contains(names, want) {
		t.Errorf("no document is named %q: %q", want, names)
	}
}

func TestParseMask(t *testing.T) {
	got, err := mask.Parse(" VIN, claim,,vin")
	if err != nil || !slices.Equal(got, []mask.Field{mask.Claim, mask.VIN}) {
		t.Errorf("%v, %v", got, err)
	}
	_, err = mask.Parse(" , ")
	if err == nil || err.Error() != `" , " names nothing to mask; write one or more of vin, claim, technician, complaint` {
		t.Errorf("%v", err)
	}
	_, err = mask.Parse("vin,name")
	if err == nil || err.Error() != `"name" cannot be masked; write one or more of vin, claim, technician, complaint` {
		t.Errorf("%v", err)
	}
}
