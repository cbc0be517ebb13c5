package source

import (
	"archive/zip"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// packed makes a workbook's archive of one part.
func packed(t *testing.T, write func(out func(string))) string {
	t.Helper()
	var file bytes.Buffer
	archive := zip.NewWriter(&file)
	part, err := archive.Create("xl/worksheets/sheet1.xml")
	if err != nil {
		t.Fatal(err)
	}
	write(func(text string) {
		if _, err := part.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	})
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "jobs.xlsx")
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// A small workbook that unpacks to what would take the memory of the machine is refused before it does: told by its bound,
// and within 300 MB.
func TestWorkbookBounds(t *testing.T) {
	var noise strings.Builder // that packs to a third, so that the ratio says nothing
	for i := range 200_000 {
		fmt.Fprintf(&noise, "%x", i*2654435761)
	}
	cases := []struct {
		name, want string
		write      func(out func(string))
	}{
		{"a part of zeros", "has a part that unzips to 114 MB, more than 200 times what it takes in the file", func(out func(string)) {
			out("<c>")
			for range 120 {
				out(strings.Repeat("0", 1_000_000))
			}
		}},
		{"one long cell", "has a cell of more than 1 MB", func(out func(string)) {
			out("<c>")
			for range 8 {
				out(noise.String())
			}
			out("</c>")
		}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			path := packed(t, c.write)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := OpenWorkbook(&Table{File: path})
			runtime.ReadMemStats(&after)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
			if taken := after.TotalAlloc - before.TotalAlloc; taken > 300<<20 {
				t.Errorf("took %d MB", taken>>20)
			}
		})
	}
}
