package document

import (
	"io/fs"
	"path"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"plumbline/analysis/audit/record"
)

func TestPlaces(t *testing.T) {
	job := record.Job{Shop: "north", JobNo: "1"}
	for name, want := range map[string][]string{
		"a.pdf":         {"north/1/a.pdf", "1/a.pdf", "north/a.pdf", "a.pdf"},
		`scans\a.pdf`:   {"north/1/scans/a.pdf", "1/scans/a.pdf", "north/scans/a.pdf", "scans/a.pdf"},
		"./a.pdf":       {"north/1/a.pdf", "1/a.pdf", "north/a.pdf", "a.pdf"},
		"../2/a.pdf":    nil,
		`..\2\a.pdf`:    nil,
		"x/../../a.pdf": nil,
		"x/../a.pdf":    nil, // leads nowhere else, and nobody writes so
		"/etc/passwd":   nil,
		`\\server\a`:    nil,
		`C:\a.pdf`:      nil,
		"C:a.pdf":       nil,
		"":              nil,
	} {
		if diff := cmp.Diff(want, places(job, name)); diff != "" {
			t.Errorf("%q: -want +got\n%s", name, diff)
		}
	}
	if diff := cmp.Diff([]string{"1/a.pdf", "a.pdf"}, places(record.Job{Shop: "..", JobNo: "1"}, "a.pdf")); diff != "" {
		t.Errorf("a shop's name that leads out of the folder: -want +got\n%s", diff)
	}
}

// Whatever shop, job and name are called, no place leads out of the folder, and all end with the whole name.
func TestPlacesStayInside(t *testing.T) {
	part := rapid.StringMatching(`[.a/\\: ]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		job := record.Job{Shop: part.Draw(t, "shop"), JobNo: part.Draw(t, "job")}
		name := part.Draw(t, "name")
		for _, place := range places(job, name) {
			if !fs.ValidPath(place) || !strings.HasSuffix("/"+place, path.Join("/", slashed(name))) {
				t.Errorf("%q in %v is looked up at %q", name, job, place)
			}
		}
	})
}
