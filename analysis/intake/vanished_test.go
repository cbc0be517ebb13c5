package intake

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plumbline/analysis/intake/source"
)

// A file that goes away between the look into its folder and its turn refuses the import by its name, and the files before it
// are not kept either.
func TestFileThatVanishes(t *testing.T) {
	folder := t.TempDir()
	first, second := filepath.Join(folder, "calibrations.csv"), filepath.Join(folder, "jobs.csv")
	for path, text := range map[string]string{
		first:  "shop,job_no,system,attempt_no,started_at,outcome\na,1,lidar,1,2026-03-09 15:00,completed\n",
		second: jobsHeader + "a,1,2026-03-09 14:05,recheck,,,,\n",
	} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	h := emptyHistory(t)
	turns := 0
	_, err := Import(context.Background(), h, Options{Files: []string{folder}, Now: now, ToolVersion: "test",
		Progress: func(string, int64, int64) {
			if turns++; turns == 1 {
				if err := os.Remove(second); err != nil {
					t.Fatal(err)
				}
			}
		}})
	var refused *source.Refusal
	if turns == 0 || !errors.As(err, &refused) || refused.File != second || !strings.Contains(err.Error(), "is not there any more") {
		t.Errorf("%d turns, the error is %v", turns, err)
	}
	if kept := one(t, h, "select (select count(*) from calibrations) || ' ' || (select count(*) from imports)"); kept != "0 0" {
		t.Errorf("kept are %s calibrations and imports", kept)
	}
}
