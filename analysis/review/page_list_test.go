package review

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// ofVehicles is a review without a month, which is quick to write, that flags some vehicles.
func ofVehicles(vins ...string) Review {
	var r Review
	for _, vin := range vins {
		r.Vehicles = append(r.Vehicles, Vehicle{Page: vin + ".html", VIN: &vin})
	}
	return r
}

func mustWrite(t *testing.T, r Review, dir string, wantStale ...string) {
	t.Helper()
	stale, err := Write(context.Background(), r, dir)
	check(t, err)
	if diff := cmp.Diff(wantStale, stale); diff != "" {
		t.Errorf("told to be stale (-want +got):\n%s", diff)
	}
}

// vehiclePages are the names in vehicles/.
func vehiclePages(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join(dir, "vehicles"))
	check(t, err)
	var names []string
	for _, entry := range entries {
		names = append(names, entry.Name())
	}
	return names
}

func put(t *testing.T, content string, path ...string) {
	t.Helper()
	check(t, writeFile(filepath.Join(path...), []byte(content)))
}

// A review written over an earlier one leaves the folder as if it had been written alone.
func TestEarlierPagesGiveWay(t *testing.T) {
	alone, over := t.TempDir(), t.TempDir()
	mustWrite(t, ofVehicles("B", "C"), alone)
	mustWrite(t, ofVehicles("A", "B"), over)
	mustWrite(t, ofVehicles("B", "C"), over)
	if diff := cmp.Diff(files(t, alone), files(t, over)); diff != "" {
		t.Errorf("-written alone +written over another:\n%s", diff)
	}
	mustWrite(t, ofVehicles(), over)
	if left := vehiclePages(t, over); left != nil {
		t.Errorf("a review that flags no vehicle leaves %v", left)
	}
}

// A page that no review writes any more goes too, wherever it was.
func TestSectionPagesGiveWay(t *testing.T) {
	dir := t.TempDir()
	mustWrite(t, ofVehicles("A"), dir)
	put(t, "a section of once", dir, "once.html")
	list := read(t, filepath.Join(dir, listName))
	put(t, list+fmt.Sprintf("%x  once.html\n", sha256.Sum256([]byte("a section of once"))), dir, listName)
	mustWrite(t, ofVehicles("A"), dir)
	if _, there := files(t, dir)["once.html"]; there {
		t.Error("the page of a section that is no longer written is still there")
	}
	if now := read(t, filepath.Join(dir, listName)); now != list {
		t.Errorf("the list is now\n%s\nit was\n%s", now, list)
	}
}

// What plumbline did not write, or what somebody has changed, stays to the byte; a changed page is told of until it is
// gone or as it was.
func TestOthersFilesStay(t *testing.T) {
	dir := t.TempDir()
	mustWrite(t, ofVehicles("A", "B", "C"), dir)
	vehicles := filepath.Join(dir, "vehicles")
	page, changed := read(t, filepath.Join(vehicles, "A.html")), read(t, filepath.Join(vehicles, "B.html"))+"<p>my note</p>"
	put(t, changed, vehicles, "B.html")
	own := map[string]string{"notes.html": "mine", "A.txt": "mine", "copy-of-A.html": page, "1ZZPL4AK1NA101879.html": page,
		"deep/A.html": page, "../mine.html": page, "../index.bak": page}
	for name, content := range own {
		put(t, content, vehicles, name)
	}
	for range 2 {
		mustWrite(t, ofVehicles("D"), dir, "vehicles/B.html")
	}
	own["B.html"] = changed
	for name, content := range own {
		if got := read(t, filepath.Join(vehicles, name)); got != content {
			t.Errorf("%s was changed to %q", name, got)
		}
	}
	want := []string{"1ZZPL4AK1NA101879.html", "A.txt", "B.html", "D.html", "copy-of-A.html", "deep", "notes.html"}
	if diff := cmp.Diff(want, vehiclePages(t, dir)); diff != "" {
		t.Errorf("left in the folder (-want +got):\n%s", diff)
	}
	put(t, strings.TrimSuffix(changed, "<p>my note</p>"), vehicles, "B.html")
	mustWrite(t, ofVehicles("D"), dir)
	if slices.Contains(vehiclePages(t, dir), "B.html") {
		t.Error("a page that is as it was written, and stale, was left")
	}
}

// Without the list nothing is known to be ours.
func TestWithoutTheListNothingIsRemoved(t *testing.T) {
	for name, spoil := range map[string]func(list string) error{
		"gone":    os.Remove,
		"empty":   func(list string) error { return os.WriteFile(list, nil, 0o600) },
		"garbled": func(list string) error { return os.WriteFile(list, []byte("vehicles/A.html\n\x00"), 0o600) },
	} {
		dir := t.TempDir()
		mustWrite(t, ofVehicles("A"), dir)
		check(t, spoil(filepath.Join(dir, listName)))
		mustWrite(t, ofVehicles("B"), dir)
		if diff := cmp.Diff([]string{"A.html", "B.html"}, vehiclePages(t, dir)); diff != "" {
			t.Errorf("list %s (-want +got):\n%s", name, diff)
		}
	}
}

// A list that was tampered with removes nothing that is no page, and nothing outside the folder.
func TestListPointsNowhereElse(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "review")
	mustWrite(t, ofVehicles("A"), dir)
	put(t, "precious", parent, "out.html")
	put(t, "precious", dir, "sub", "in.html")
	put(t, "precious", dir, "review.xlsx")
	digest := fmt.Sprintf("%x", sha256.Sum256([]byte("precious")))
	list := read(t, filepath.Join(dir, listName))
	for _, name := range []string{"../out.html", "vehicles/../../out.html", filepath.ToSlash(filepath.Join(parent, "out.html")), "sub/in.html", "review.xlsx"} {
		list += digest + "  " + name + "\n"
	}
	put(t, list, dir, listName)
	mustWrite(t, ofVehicles("B"), dir)
	for _, path := range []string{filepath.Join(parent, "out.html"), filepath.Join(dir, "sub", "in.html"), filepath.Join(dir, "review.xlsx")} {
		if read(t, path) != "precious" {
			t.Errorf("%s was changed", path)
		}
	}
}

// Nothing is removed through a link, be it the page's own, one for the folder of pages, or one that leads to another page
// of ours.
func TestLinksAreNotFollowed(t *testing.T) {
	link := func(t *testing.T, dir, name string) string {
		kept := filepath.Join(t.TempDir(), "kept")
		check(t, os.Rename(filepath.Join(dir, name), kept))
		check(t, os.Symlink(kept, filepath.Join(dir, name)))
		return kept
	}
	t.Run("page", func(t *testing.T) {
		dir := t.TempDir()
		mustWrite(t, ofVehicles("A"), dir)
		kept := link(t, dir, "vehicles/A.html")
		mustWrite(t, ofVehicles(), dir, "vehicles/A.html")
		if read(t, kept) != read(t, filepath.Join(dir, "vehicles", "A.html")) {
			t.Error("the link leads elsewhere now")
		}
	})
	t.Run("folder", func(t *testing.T) {
		dir := t.TempDir()
		mustWrite(t, ofVehicles("A"), dir)
		kept := link(t, dir, "vehicles")
		mustWrite(t, ofVehicles("B"), dir, "vehicles/A.html")
		read(t, filepath.Join(kept, "A.html"))
	})
	t.Run("inside", func(t *testing.T) {
		dir := t.TempDir()
		mustWrite(t, ofVehicles("A"), dir)
		check(t, os.Rename(filepath.Join(dir, "vehicles"), filepath.Join(dir, "mine")))
		check(t, os.Symlink("mine", filepath.Join(dir, "vehicles")))
		mustWrite(t, ofVehicles(), dir, "vehicles/A.html")
		read(t, filepath.Join(dir, "mine", "A.html"))
	})
}

// A writing that breaks off leaves the folder as it was.
func TestBrokenOffWriting(t *testing.T) {
	dir := t.TempDir()
	mustWrite(t, ofVehicles("A"), dir)
	check(t, os.Mkdir(filepath.Join(dir, "vehicles", "Z.html"), 0o755)) // in the way of the last page
	if _, err := Write(context.Background(), ofVehicles("B", "Z"), dir); err == nil {
		t.Fatal("a page was written over a folder")
	}
	if diff := cmp.Diff([]string{"A.html", "Z.html"}, vehiclePages(t, dir)); diff != "" {
		t.Errorf("after it broke off (-want +got):\n%s", diff)
	}
	check(t, os.Remove(filepath.Join(dir, "vehicles", "Z.html")))
	mustWrite(t, ofVehicles("C"), dir)
	if diff := cmp.Diff([]string{"C.html"}, vehiclePages(t, dir)); diff != "" {
		t.Errorf("after the next (-want +got):\n%s", diff)
	}
}
