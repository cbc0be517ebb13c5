package audit

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/audit/document"
	"plumbline/analysis/audit/proof"
)

// documentsFolder lays the files that the invented history's documents are looked up in.
func documentsFolder(t *testing.T) string {
	t.Helper()
	outer := t.TempDir()
	dir := filepath.Join(outer, "docs")
	for name, text := range map[string]string{
		"docs/pre.txt": "", "docs/hull/A-1/A-1/cal.txt": "calibrated", "docs/A-1/post.txt": "changed since", "outside.txt": "secret",
		"docs/A-2/aux.txt": "device", "docs/stray.txt": "nobody lists me", "docs/hull/BX-777/birch.jpg": "of another insurer",
	} {
		path := filepath.Join(outer, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink("../outside.txt", filepath.Join(dir, "gone.jpg")); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestDocumentsAreComparedWithTheirHashes(t *testing.T) {
	dir, result := made(t, Options{Documents: documentsFolder(t), CopyDocuments: true})
	want := &document.Report{
		Same:     1,
		Changed:  []string{"hull/A-1: post.txt"},
		NoHash:   []string{"hull/A-1: A-1/cal.txt", "hull/A-2: aux.txt"},
		Refused:  []string{"hull/A-2: ../outside.txt", "hull/A-2: gone.jpg"}, // a name and a link that lead out
		Unlisted: []string{"stray.txt"},
	}
	if diff := cmp.Diff(want, result.Documents); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	copies := map[string]string{}
	for name, text := range files(t, dir) {
		if strings.HasPrefix(name, "documents/") {
			copies[name] = text
		}
		if strings.Contains(text, "secret") || strings.Contains(text, "stray") {
			t.Errorf("%s holds what is outside of the folder or unlisted", name)
		}
	}
	wantCopies := map[string]string{
		"documents/hull/A-1/pre_scan_report-pre.txt": "", // the only one that is the file on record
	}
	if diff := cmp.Diff(wantCopies, copies); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if report, err := proof.Verify(dir, proof.VerifyOptions{}); err != nil || len(report.Discrepancies) > 0 {
		t.Errorf("a bundle with documents does not verify: %v, %v", report.Discrepancies, err)
	}
}

func TestDocumentsThatAreNotThere(t *testing.T) {
	dir, result := made(t, Options{Documents: t.TempDir()})
	if len(result.Documents.Absent) != 5 || len(result.Documents.Refused) != 1 {
		t.Errorf("%+v", result.Documents)
	}
	for _, row := range rowsOf(t, dir, "documents") {
		want := document.Absent
		if row["file_name"] == "../outside.txt" {
			want = document.Refused
		}
		if row["lookup"] != want || row["found_sha256"] != "" {
			t.Errorf("%s: %s, %s", row["file_name"], row["lookup"], row["found_sha256"])
		}
	}
}
