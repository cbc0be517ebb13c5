package policy

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPlainWords(t *testing.T) {
	read, err := Read("p.toml", []byte(`
name = "agreed"
[[require]]
scans = ["pre"]
documents = { photo = 4, invoice = 1 }
[[require]]
insurer = "Alder Mutual"
system = ["front_camera", "front_radar"]
reason = "windshield_replacement"
source = ["aftermarket", "recycled", "oee"]
hours = { post_scan = 24 }
scans = ["pre"]
`))
	if err != nil {
		t.Fatal(err)
	}
	want := []Plain{
		{"Every closed job with a calibration", []string{"Document: invoice", "Document: photo, at least 4", "Pre-scan"}},
		{"Every closed job with a calibration of front camera or front radar, paid for by Alder Mutual, where the vehicle came for " +
			"windshield replacement, with a windshield whose source is aftermarket, recycled or oee",
			[]string{"Pre-scan", "At most 24 h from the last completed attempt to the post-scan"}},
	}
	if diff := cmp.Diff(want, read.Plain()); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	things := []Lack{{What: "document", Subject: "invoice"}, {What: "document", Subject: "photo"}, {What: "scan", Subject: "pre"},
		{What: "time_limit", Subject: "post_scan"}}
	if diff := cmp.Diff(things, read.Things()); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
