package audit

import (
	"os"
	"path/filepath"
	"testing"

	"plumbline/analysis/audit/proof"
)

// Whatever a file holds, the check of a proof ends; it finds nothing amiss in the one text that the bundle gave, and in no
// other.
func FuzzProof(f *testing.F) {
	dir, _ := made(f, Options{})
	report, err := proof.Verify(dir, proof.VerifyOptions{Job: "hull/A-1"})
	if err != nil {
		f.Fatal(err)
	}
	sound, err := report.Proof.JSON()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(sound)
	f.Add(append([]byte(" "), sound...))
	for _, seed := range []string{"", "{}", "null", `{"manifest":"{}"}`, `{"job":"hull/A-1","leaf_index":-1,"tree_size":0,"manifest":"x"}`, `{"audit_path":["zz"],"manifest":"{}"}`} {
		f.Add([]byte(seed))
	}
	path := filepath.Join(f.TempDir(), "proof.json")
	f.Fuzz(func(t *testing.T, text []byte) {
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
		report, err := proof.Verify(path, proof.VerifyOptions{})
		if isSound := err == nil && len(report.Discrepancies) == 0; isSound != (string(text) == string(sound)) {
			t.Fatalf("taken as sound: %v, %v\n%q", isSound, err, text)
		}
	})
}
