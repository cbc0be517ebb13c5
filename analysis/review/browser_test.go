package review

import (
	"context"
	"net/url"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"plumbline/analysis/testkit"
)

// A seen is what a browser says of a page.
type seen struct {
	Charts    int      // drawings asked for
	Drawings  int      // of these, drawn with shapes in them
	Width     int      // of the page's content, px
	Headings  int      // of the first level
	Scopeless int      // header cells without a scope
	Unnamed   int      // tables without a caption
	Dead      []string // links within the page that lead nowhere
}

const look = `({
	Charts: document.querySelectorAll("script[data-chart]").length,
	Drawings: [...document.querySelectorAll(".chart svg")].filter(s => s.querySelectorAll("path").length > 0).length,
	Width: document.documentElement.scrollWidth,
	Headings: document.querySelectorAll("h1").length,
	Scopeless: document.querySelectorAll("th:not([scope])").length,
	Unnamed: [...document.querySelectorAll("table")].filter(t => !t.caption || !t.caption.textContent.trim()).length,
	Dead: [...document.querySelectorAll("a[href^='#']")].map(a => a.getAttribute("href").slice(1)).filter(id => !document.getElementById(id)),
})`

// Every page opens from disk in a browser, on a desk and on a phone: without an error, without asking any other place
// for anything, with every chart drawn, and without scrolling sideways.
func TestPagesInBrowser(t *testing.T) {
	dir := t.TempDir()
	if _, err := Write(context.Background(), mustReview(t), dir); err != nil {
		t.Fatal(err)
	}
	browser := openBrowser(t)
	charts := 0
	for name := range files(t, dir) {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		for _, width := range []int64{1280, 390} {
			got, complaints := visit(t, browser, filepath.Join(dir, name), width)
			charts += got.Charts
			for _, complaint := range complaints {
				t.Errorf("%s: %s", name, complaint)
			}
			if got.Drawings != got.Charts {
				t.Errorf("%s, %d px: %d of %d charts are drawn", name, width, got.Drawings, got.Charts)
			}
			if got.Width > int(width) {
				t.Errorf("%s is %d px wide on a screen of %d", name, got.Width, width)
			}
			if got.Headings != 1 || got.Scopeless != 0 || got.Unnamed != 0 || len(got.Dead) != 0 {
				t.Errorf("%s: one first heading, scopes, captions and links that lead somewhere expected, got %+v", name, got)
			}
		}
	}
	if charts == 0 {
		t.Error("no page has a chart")
	}
}

func openBrowser(t *testing.T) context.Context {
	t.Helper()
	options := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.Headless, chromedp.NoSandbox,
		chromedp.DisableGPU, chromedp.ExecPath(testkit.Program(t, "chromium")))
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	browser, closeBrowser := chromedp.NewContext(allocator)
	t.Cleanup(closeBrowser)
	if err := chromedp.Do(browser); err != nil {
		t.Fatal(err)
	}
	return browser
}

// visit opens a page in a tab of its own and gives what the browser has to complain about.
func visit(t *testing.T, browser context.Context, path string, width int64) (seen, []string) {
	t.Helper()
	var lock sync.Mutex
	var complaints []string
	tab, closeTab := chromedp.NewContext(browser, chromedp.WithListener(func(event any) {
		if complaint := complaintOf(event); complaint != "" {
			lock.Lock()
			defer lock.Unlock()
			complaints = append(complaints, complaint)
		}
	}))
	defer closeTab()
	watchNetwork := chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, network.Enable, network.EnableParams{})
		return err
	})
	address := url.URL{Scheme: "file", Path: filepath.ToSlash(path)}
	err := chromedp.Do(tab, watchNetwork, chromedp.EmulateViewport(width, 800), chromedp.Navigate(address.String()))
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	got, err := chromedp.Run(tab, chromedp.Evaluate[seen](look))
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	lock.Lock()
	defer lock.Unlock()
	return got, complaints
}

// complaintOf reads an event of the browser; empty where all is well.
func complaintOf(event any) string {
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(e.Request.URL, "file:") && !strings.HasPrefix(e.Request.URL, "data:") {
			return "asks for " + e.Request.URL
		}
	case *network.EventLoadingFailed:
		return "a file is not there: " + e.ErrorText
	case *runtime.EventExceptionThrown:
		return "script error: " + e.ExceptionDetails.Text
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeWarning {
			return "console: " + string(e.Type)
		}
	}
	return ""
}

// openPage opens a page in a tab of its own, on a screen or on paper, in light or dark colors.
func openPage(t *testing.T, browser context.Context, path string, width int64, media, colors string) (tab context.Context, closeTab func()) {
	t.Helper()
	tab, closeTab = chromedp.NewContext(browser)
	address := url.URL{Scheme: "file", Path: filepath.ToSlash(path)}
	if err := chromedp.Do(tab, chromedp.EmulateViewport(width, 800), emulate(media, colors), chromedp.Navigate(address.String())); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return tab, closeTab
}

func emulate(media, colors string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media,
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: colors}}})
		return err
	})
}
