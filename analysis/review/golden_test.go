package review

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const goldenFolder = "testdata/golden/review"

// goldenPages are those kept as they are written: together they hold every template and most of the charts. The
// people page has no part that these lack, and is as large as they are together.
var goldenPages = []string{"index.html", "comebacks.html", "repeats.html", "post-scan-faults.html", "glass.html",
	"evidence.html", "data-quality.html", "definitions.html"}

func TestGoldenPages(t *testing.T) {
	dir := t.TempDir()
	r := mustReview(t)
	if _, err := Write(context.Background(), r, dir); err != nil {
		t.Fatal(err)
	}
	names := append([]string{}, goldenPages...)
	if len(r.Vehicles) == 0 {
		t.Fatal("the month flags no vehicle")
	}
	names = append(names, "vehicles/"+r.Vehicles[0].Page)
	if *update {
		if err := os.RemoveAll(goldenFolder); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range names {
		compareGolden(t, filepath.Join(goldenFolder, filepath.FromSlash(name)), read(t, filepath.Join(dir, filepath.FromSlash(name))))
	}
	everyGoldenIsClaimed(t, names)
}

func compareGolden(t *testing.T, golden, got string) {
	t.Helper()
	if *update {
		if err := writeFile(golden, []byte(got)); err != nil {
			t.Fatal(err)
		}
	}
	if diff := cmp.Diff(read(t, golden), got); diff != "" {
		t.Errorf("%s (-want +got; go test ./analysis/review -update rewrites it):\n%s", golden, diff)
	}
}

// everyGoldenIsClaimed fails on a golden file that no test compares.
func everyGoldenIsClaimed(t *testing.T, names []string) {
	t.Helper()
	claimed := map[string]bool{}
	for _, name := range names {
		claimed[filepath.Join(goldenFolder, filepath.FromSlash(name))] = true
	}
	err := filepath.WalkDir(goldenFolder, func(path string, entry os.DirEntry, err error) error {
		if err == nil && !entry.IsDir() && !claimed[path] {
			t.Errorf("no test compares %s", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// The same review written twice, from two histories, is the same to the byte.
func TestWriteIsReproducible(t *testing.T) {
	first, second := t.TempDir(), t.TempDir()
	if _, err := Write(context.Background(), mustReview(t), first); err != nil {
		t.Fatal(err)
	}
	rate := 95.0
	o := Options{Month: smallMonth, Version: "test", LaborRate: &rate, Currency: "EUR"}
	o.Asked.AsOf, o.Filter.Shop = &smallAsOf, "birch"
	again, err := gatherSmall(o)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Write(context.Background(), again, second); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(files(t, first), files(t, second)); diff != "" {
		t.Errorf("two reviews of the same records differ:\n%s", diff)
	}
}

// files reads a folder, by path.
func files(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			name, _ := filepath.Rel(dir, path)
			all[name] = read(t, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func read(t *testing.T, path string) string {
	t.Helper()
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(content)
}
