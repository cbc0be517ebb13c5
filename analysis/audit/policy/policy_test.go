package policy

import (
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPolicyNamesTheLineOfWhatItRefuses(t *testing.T) {
	const head = "name = \"agreed\"\n[[require]]\n"
	for _, c := range []struct {
		name, text   string
		line         int
		detail, says string
	}{
		{"unknown key", head + "road_test = true\nroadtest = true\n", 4, `"require.roadtest" is not a key of a policy`,
			"keys of a rule are insurer, system, reason, source, scans, documents, road_test, measurements, " +
				"equipment_verified, procedure_named, sequence, hours"},
		{"unknown key on top", "name = \"a\"\nversion = 2\n", 2, `"version" is not a key of a policy`, "keys of a rule are insurer, " +
			"system, reason, source, scans, documents, road_test, measurements, equipment_verified, procedure_named, " +
			"sequence, hours"},
		{"wrong word", head + "scans = [\"pre\", \"prost\"]\n", 3, `"prost" is not a scan`, "write one of pre, post"},
		{"wrong single word", head + "road_test = true\nsource = \"genuine\"\n", 4, `"genuine" is not a glass source`,
			"write one of aftermarket, oee, oem, original, recycled, unknown"},
		{"wrong word as key", head + "documents = { fotos = 1 }\n", 3, `"fotos" is not a kind of document`, "write one of " +
			"alignment_record, calibration_report, certificate, invoice, other, photo, post_scan_report, " +
			"pre_scan_report, procedure, road_test_record"},
		{"wrong type", head + "road_test = 7\n", 3, "a value of another type belongs here", compareDefault},
		{"nothing asked", head + "system = \"lidar\"\n", 2, "this rule asks for nothing", "name what it asks for: scans, documents, " +
			"road_test, measurements, equipment_verified, procedure_named, sequence, hours"},
		{"no document at all", head + "documents = { photo = 0 }\n", 3, "photo = 0 asks for nothing",
			"write 1 or more, or leave it out"},
		{"no time", head + "hours = { documents = -1 }\n", 3, "a limit of -1 hours can never be kept",
			"write a number above 0, or leave it out"},
		{"no name", "[[require]]\nroad_test = true\n", 0, "the policy has no name", `write name = "…" in the first line`},
		{"no rule", "name = \"a\"\n", 0, "the policy asks for nothing", "write at least one [[require]]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Read("p.toml", []byte(c.text))
			var got *Error
			if !errors.As(err, &got) {
				t.Fatalf("got %v, not a PolicyError", err)
			}
			if diff := cmp.Diff(&Error{"p.toml", c.line, c.detail, c.says}, got); diff != "" {
				t.Errorf("-want +got\n%s", diff)
			}
		})
	}
	_, err := Read("p.toml", []byte("name = \"a\n"))
	var broken *Error
	if !errors.As(err, &broken) || broken.Line != 1 {
		t.Errorf("broken TOML gives %v, not its line", err)
	}
}

func TestPolicyTakesWordsInAnySpelling(t *testing.T) {
	policy, err := Read("p.toml", []byte("\ufeffname = 'a'\n[[require]]\nsystem = 'Front-Camera'\nscans = ['PRE']\n"))
	if err != nil {
		t.Fatal(err)
	}
	if got := policy.Rules[0].System[0].string + " " + policy.Rules[0].Scans[0].string; got != "front_camera pre" {
		t.Errorf("words are read as %q", got)
	}
}

func TestCommonPracticeAsksForWhatItSays(t *testing.T) {
	var asked []string
	for _, d := range CommonPractice().Rules[0].demands() {
		asked = append(asked, d.What+" "+orEmpty(d.Subject))
	}
	want := []string{"document calibration_report", "document post_scan_report", "document pre_scan_report", "scan pre",
		"scan post", "sequence pre_scan_before", "sequence post_scan_after", "sequence road_test_between", "road_test ",
		"equipment_verified ", "procedure_named "}
	if diff := cmp.Diff(want, asked); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
