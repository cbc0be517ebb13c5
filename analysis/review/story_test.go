package review

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"plumbline/analysis/quality"
)

// A vehicle's story stands alone: its page opens without the rest of a review, draws each visit, and shows names as
// text.
func TestStoryPage(t *testing.T) {
	ctx, h := context.Background(), hostileHistory(t)
	story, err := quality.Trace(ctx, h, "1ZZPL4AK3RA942205")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := WriteStory(ctx, h, story, "test", dir); err != nil {
		t.Fatal(err)
	}
	page := read(t, filepath.Join(dir, "index.html"))
	for _, expected := range []string{`<svg class="timeline"`, "1 attempt, 1 failure, 10.0 hours from first to last", "Caution."} {
		if !strings.Contains(page, expected) {
			t.Errorf("the page does not hold %q", expected)
		}
	}
	if strings.Contains(page, "<nav") {
		t.Error("the page leads to pages that are not there")
	}
	got, complaints := visit(t, openBrowser(t), filepath.Join(dir, "index.html"), 390)
	if len(complaints) > 0 || got.Width > 390 {
		t.Errorf("%d px wide on a screen of 390, %v", got.Width, complaints)
	}
}
