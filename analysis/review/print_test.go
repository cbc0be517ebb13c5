package review

import (
	"bytes"
	"context"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"plumbline/analysis/testkit"
)

// onPaper asks for what would go wrong on paper of a width: drawings that reach over what follows them or over the edge,
// or that are not to scale. The page is laid out for paper without the script being told of it, as printing does.
const onPaper = `(() => {
	const wrong = [];
	for (const box of document.querySelectorAll(".chart")) {
		const svg = box.querySelector("svg"), drawn = svg.getBoundingClientRect(), [, , w, h] = svg.getAttribute("viewBox").split(" ").map(Number);
		const below = box.closest("figure").getBoundingClientRect().bottom, next = box.closest("figure").nextElementSibling;
		if (drawn.width === 0) continue;
		if (drawn.bottom > below + 1) wrong.push(box.id + " reaches " + Math.round(drawn.bottom - below) + " px out of its figure");
		if (next && next.getBoundingClientRect().height > 0 && drawn.bottom > next.getBoundingClientRect().top + 1) wrong.push(box.id + " lies under what follows");
		if (drawn.right > document.documentElement.clientWidth + 1) wrong.push(box.id + " is cut at the right");
		if (Math.abs(drawn.height / drawn.width - h / w) > 0.01) wrong.push(box.id + " is not to scale");
	}
	return wrong;
})()`

// untold keeps the script from drawing anew when the window becomes as wide as paper.
const untold = `window.addEventListener("resize", e => e.stopImmediatePropagation(), true); window.dispatchEvent(new Event("beforeprint")); true`

// lastLabels are the last words of the lower axis of each drawing.
const lastLabels = `[...document.querySelectorAll(".chart svg")].filter(s => s.getBoundingClientRect().width > 0).map(s => {
	const texts = [...s.querySelectorAll("text")].filter(x => x.textContent.trim());
	texts.sort((a, b) => a.getBoundingClientRect().bottom - b.getBoundingClientRect().bottom || a.getBoundingClientRect().right - b.getBoundingClientRect().right);
	return texts.length ? texts[texts.length - 1].textContent : "";
})`

// Every drawing of every page is whole on A4 and Letter, from whatever window it is printed.
func TestPagesPrintWhole(t *testing.T) {
	dir := t.TempDir()
	if _, err := Write(context.Background(), mustReview(t), dir); err != nil {
		t.Fatal(err)
	}
	browser := openBrowser(t)
	for _, l := range leaves {
		for _, window := range []int64{400, 1280, 1600} {
			tab, closeTab := openPage(t, browser, filepath.Join(dir, l.file), window, "screen", "dark")
			if _, err := chromedp.Run(tab, chromedp.Evaluate[bool](untold)); err != nil {
				t.Fatal(err)
			}
			for paper, width := range map[string]int64{"A4": 688, "Letter": 710} { // px between margins of 14 mm
				if err := chromedp.Do(tab, emulate("print", "light"), chromedp.EmulateViewport(width, 1000)); err != nil {
					t.Fatal(err)
				}
				wrong, err := chromedp.Run(tab, chromedp.Evaluate[[]string](onPaper))
				if err != nil {
					t.Fatal(err)
				}
				for _, what := range wrong {
					t.Errorf("%s from a window of %d px on %s: %s", l.file, window, paper, what)
				}
			}
			closeTab()
		}
	}
}

// What Chromium prints has the last label of every drawing on it.
func TestPrintedPagesHoldEveryDrawing(t *testing.T) {
	reader := testkit.Program(t, "pdftotext")
	dir := t.TempDir()
	if _, err := Write(context.Background(), mustReview(t), dir); err != nil {
		t.Fatal(err)
	}
	browser := openBrowser(t)
	for _, name := range []string{"repeats.html", "people-and-equipment.html", "index.html"} {
		tab, closeTab := openPage(t, browser, filepath.Join(dir, name), 1280, "", "light")
		labels, err := chromedp.Run(tab, chromedp.Evaluate[[]string](lastLabels))
		if err != nil {
			t.Fatal(err)
		}
		printed, err := chromedp.Run(tab, chromedp.PrintToPDF())
		if err != nil {
			t.Fatal(err)
		}
		closeTab()
		text := exec.Command(reader, "-", "-")
		text.Stdin = bytes.NewReader(printed)
		words, err := text.Output()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		counted := map[string]int{}
		for _, label := range labels {
			counted[label]++
		}
		if len(labels) == 0 {
			t.Errorf("%s has no drawing", name)
		}
		for label, want := range counted {
			if got := strings.Count(string(words), label); label != "" && got < want {
				t.Errorf("%s: %q is the last label of %d drawings, and printed %d times", name, label, want, got)
			}
		}
	}
}
