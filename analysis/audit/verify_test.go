package audit

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/sample"
)

// copyOf copies a bundle, so that each damage starts from a whole one.
func copyOf(t *testing.T, dir string) string {
	t.Helper()
	target := filepath.Join(t.TempDir(), "copy")
	if err := os.CopyFS(target, os.DirFS(dir)); err != nil {
		t.Fatal(err)
	}
	return target
}

func edit(t *testing.T, path string, change func([]byte) []byte) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, change(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func flip(text []byte) []byte { return flipAt(text, len(text)/2) }

func flipAt(text []byte, place int) []byte { text[place] ^= 1; return text }

func move(t *testing.T, from, to string) {
	t.Helper()
	if err := os.Rename(from, to); err != nil {
		t.Fatal(err)
	}
}

func TestVerifyFindsEveryDamage(t *testing.T) {
	whole, _ := made(t, Options{Key: testKey(t), Sample: &sample.Request{AQL: "6.5"}})
	clean, err := proof.Verify(whole, proof.VerifyOptions{})
	if err != nil || len(clean.Discrepancies) != 0 {
		t.Fatalf("the bundle as made: %v, %v", clean.Discrepancies, err)
	}
	for name := range files(t, whole) {
		for damage, change := range map[string]func([]byte) []byte{
			"flip a bit at the start": func(text []byte) []byte { return flipAt(text, 0) },
			"flip a bit":              flip,
			"flip a bit at the end":   func(text []byte) []byte { return flipAt(text, len(text)-1) },
			"truncate":                func(text []byte) []byte { return text[:len(text)-1] },
			"empty":                   func([]byte) []byte { return nil },
			"append":                  func(text []byte) []byte { return append(text, '\n') },
		} {
			t.Run(damage+" "+name, func(t *testing.T) {
				dir := copyOf(t, whole)
				edit(t, filepath.Join(dir, name), change)
				mustName(t, dir, name)
			})
		}
		if name == proof.ManifestName { // each of its bytes counts, and most keep its form
			size := len(files(t, whole)[name])
			for place := 0; place < size; place += 61 {
				dir := copyOf(t, whole)
				edit(t, filepath.Join(dir, name), func(text []byte) []byte { return flipAt(text, place) })
				mustName(t, dir, name)
			}
		}
		t.Run("remove "+name, func(t *testing.T) {
			dir := copyOf(t, whole)
			if err := os.Remove(filepath.Join(dir, name)); err != nil {
				t.Fatal(err)
			}
			mustName(t, dir, name)
		})
		t.Run("rename "+name, func(t *testing.T) {
			dir := copyOf(t, whole)
			move(t, filepath.Join(dir, name), filepath.Join(dir, name+".old"))
			mustName(t, dir, name)
			if name != proof.ManifestName { // without the manifest nobody knows what belongs to the bundle
				mustName(t, dir, name+".old")
			}
		})
	}
}

// mustName verifies a damaged bundle: the file must be named, or the checker is broken.
func mustName(t *testing.T, dir, name string) {
	t.Helper()
	report, err := proof.Verify(dir, proof.VerifyOptions{})
	if err != nil {
		t.Fatalf("verify gives up: %v", err)
	}
	for _, d := range report.Discrepancies {
		if d.File == name {
			return
		}
	}
	t.Errorf("the checker is broken: it does not name %s but %v", name, report.Discrepancies)
}

func TestVerifySaysWhatHappened(t *testing.T) {
	whole, _ := made(t, Options{})
	for _, c := range []struct {
		name   string
		damage func(t *testing.T, dir string)
		want   []string
	}{
		{"swap", func(t *testing.T, dir string) {
			move(t, filepath.Join(dir, "csv/scans.csv"), filepath.Join(dir, "x"))
			move(t, filepath.Join(dir, "csv/glass.csv"), filepath.Join(dir, "csv/scans.csv"))
			move(t, filepath.Join(dir, "x"), filepath.Join(dir, "csv/glass.csv"))
		}, []string{"csv/glass.csv: has the content of csv/scans.csv, and that has its",
			"csv/scans.csv: has the content of csv/glass.csv, and that has its",
			"csv/scans.csv: has 1 rows, the manifest says 5", "csv/glass.csv: has 5 rows, the manifest says 1",
			"manifest.json: its Merkle root is not the one that the CSV files give"}},
		{"rename", func(t *testing.T, dir string) {
			move(t, filepath.Join(dir, "cover.html"), filepath.Join(dir, "index.html"))
		}, []string{"cover.html: is missing; its content is in index.html", "index.html: does not belong to the bundle"}},
		{"add", func(t *testing.T, dir string) {
			os.WriteFile(filepath.Join(dir, "csv/more.csv"), nil, 0o644)
			os.Mkdir(filepath.Join(dir, "empty"), 0o755)
			os.Symlink("cover.html", filepath.Join(dir, "link.html"))
		}, []string{"empty: an empty folder that does not belong to the bundle", "link.html: is a link or a device, which no bundle holds",
			"csv/more.csv: does not belong to the bundle"}},
		{"add a row", func(t *testing.T, dir string) {
			edit(t, filepath.Join(dir, "csv/road_tests.csv"), func(text []byte) []byte {
				return append(text, "hull,A-9,,,1,2026-01-05 13:00:00,,,passed,,,\n"...)
			})
		}, []string{"csv/road_tests.csv: is changed: 327 bytes, the manifest says 282",
			"csv/road_tests.csv: row 3 is of job hull/A-9, which csv/jobs.csv does not hold",
			"csv/road_tests.csv: has 3 rows, the manifest says 2"}},
		{"cover up a changed page", func(t *testing.T, dir string) {
			edit(t, filepath.Join(dir, "cover.html"), flip)
			sum, _ := proof.SumFile(filepath.Join(dir, "cover.html"))
			was, _ := proof.SumFile(filepath.Join(whole, "cover.html"))
			edit(t, filepath.Join(dir, proof.SumsName), func(text []byte) []byte {
				return []byte(strings.ReplaceAll(string(text), was.SHA256, sum.SHA256))
			})
		}, []string{"cover.html: is changed: its SHA-256 is not the manifest's",
			"SHA256SUMS: does not list what the manifest lists, the manifest itself and its signature"}},
		{"edit the manifest", func(t *testing.T, dir string) {
			edit(t, filepath.Join(dir, proof.ManifestName), func(text []byte) []byte {
				return []byte(strings.Replace(string(text), `"window_days": 90`, `"window_days":  30`, 1))
			})
		}, []string{"manifest.json: is not in the form in which a bundle is made: it was edited",
			"SHA256SUMS: does not list what the manifest lists, the manifest itself and its signature",
			"manifest.json: is not the one that SHA256SUMS lists: one of the two was changed"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := copyOf(t, whole)
			c.damage(t, dir)
			report, err := proof.Verify(dir, proof.VerifyOptions{})
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, d := range report.Discrepancies {
				text, _, _ := strings.Cut(d.String(), " (")
				got = append(got, text)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("-want +got\n%s", diff)
			}
		})
	}
	if _, err := proof.Verify(t.TempDir(), proof.VerifyOptions{}); err == nil || !strings.Contains(err.Error(), "this is not an audit bundle") {
		t.Errorf("an empty folder passes for a bundle, or: %v", err)
	}
}

func TestSignatureTiesTheBundleToTheShop(t *testing.T) {
	folder := t.TempDir()
	key := savedKey(t, filepath.Join(folder, "shop.key"))
	savedKey(t, filepath.Join(folder, "other.key"))
	signed, result := made(t, Options{Key: key})
	report, err := proof.Verify(signed, proof.VerifyOptions{Key: filepath.Join(folder, "shop.key.pub")})
	if err != nil || len(report.Discrepancies) != 0 || !report.SignerTrusted || report.Signer != result.Signer {
		t.Errorf("the shop's own key: %+v, %v", report, err)
	}
	report, err = proof.Verify(signed, proof.VerifyOptions{Key: filepath.Join(folder, "other.key.pub")})
	if err != nil || len(report.Discrepancies) != 1 || report.Discrepancies[0].What != "signature" || report.SignerTrusted {
		t.Errorf("another key: %+v, %v", report, err)
	}
	report, err = proof.Verify(signed, proof.VerifyOptions{})
	if err != nil || len(report.Discrepancies) != 0 || report.SignerTrusted || len(report.Notices) != 1 {
		t.Errorf("no key: %+v, %v", report, err)
	}
	unsigned, _ := made(t, Options{})
	report, err = proof.Verify(unsigned, proof.VerifyOptions{Key: filepath.Join(folder, "shop.key.pub")})
	if err != nil || len(report.Discrepancies) != 1 || report.Discrepancies[0].What != "signature" {
		t.Errorf("an unsigned bundle under a key: %+v, %v", report, err)
	}
}

func TestOneJobIsProvenWithoutTheRest(t *testing.T) {
	dir, result := made(t, Options{Key: testKey(t)})
	for _, job := range []string{"hull/A-1", `h/u",l/A-6`} {
		report, err := proof.Verify(dir, proof.VerifyOptions{Job: job})
		if err != nil || report.Proof == nil {
			t.Fatalf("%s: %v", job, err)
		}
		if !strings.HasPrefix(report.Proof.Record, "jobs,") || strings.Contains(report.Proof.Record, "hull,A-2") {
			t.Errorf("the record of %s is\n%s", job, report.Proof.Record)
		}
		text, err := report.Proof.JSON()
		if err != nil {
			t.Fatal(err)
		}
		alone := filepath.Join(t.TempDir(), "proof.json")
		if err := os.WriteFile(alone, text, 0o600); err != nil {
			t.Fatal(err)
		}
		report, err = proof.Verify(alone, proof.VerifyOptions{})
		if err != nil || len(report.Discrepancies) != 0 || report.Root != result.Root {
			t.Errorf("%s alone: %+v, %v", job, report, err)
		}
		for old, changed := range map[string]string{"jobs,": "jobs, ", `"leaf_index":`: `"leaf_index":1`, result.Root: fmt.Sprintf("%064d", 0)} {
			damaged := strings.ReplaceAll(string(text), old, changed)
			if err := os.WriteFile(alone, []byte(damaged), 0o600); err != nil {
				t.Fatal(err)
			}
			if report, err := proof.Verify(alone, proof.VerifyOptions{}); err != nil || len(report.Discrepancies) == 0 {
				t.Errorf("the checker is broken: it takes %q for %q: %v", changed, old, err)
			}
		}
	}
	if _, err := proof.Verify(dir, proof.VerifyOptions{Job: "hull/BX-777"}); err == nil || !strings.Contains(err.Error(), "there is no job “hull/BX-777”") {
		t.Errorf("a job that is not there: %v", err)
	}
}

// savedKey makes a key and its file.
func savedKey(t *testing.T, path string) *proof.Key {
	t.Helper()
	key := testKey(t)
	if err := key.Save(path); err != nil {
		t.Fatal(err)
	}
	return key
}
