package review

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// broken asks the accessibility checker of axe-core (version 4.14.1, MPL-2.0, used in tests only) for the rules of WCAG
// 2.0 to 2.2, levels A and AA, that a page breaks, with the first place of each.
const broken = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]})
	.then(r => r.violations.map(v => v.id + " (" + v.nodes.length + "): " + v.nodes[0].html.slice(0, 120)))`

// No page breaks a rule of the Web Content Accessibility Guidelines that a program can check, on a desk or on a phone, on a light screen or a dark one.
func TestPagesAreAccessible(t *testing.T) {
	dir := t.TempDir()
	if _, err := Write(context.Background(), mustReview(t), dir); err != nil {
		t.Fatal(err)
	}
	script := read(t, filepath.Join("testdata", "axe", "axe.min.js"))
	browser := openBrowser(t)
	kinds := map[string]bool{}
	for name := range files(t, dir) {
		folder := filepath.Dir(name)
		if !strings.HasSuffix(name, ".html") || folder != "." && kinds[folder] {
			continue // one vehicle and one stand stand for all
		}
		kinds[folder] = true
		for _, screen := range []struct {
			width  int64
			colors string
		}{{1280, "light"}, {390, "light"}, {1280, "dark"}} {
			tab, closeTab := openPage(t, browser, filepath.Join(dir, name), screen.width, "screen", screen.colors)
			if _, err := chromedp.Run(tab, chromedp.Evaluate[bool](script+"; true")); err != nil {
				t.Fatal(err)
			}
			found, err := chromedp.Run(tab, chromedp.Evaluate[[]string](broken, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			closeTab()
			for _, violation := range found {
				t.Errorf("%s, %d px, %s: %s", name, screen.width, screen.colors, violation)
			}
		}
	}
}
