package review

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"plumbline/analysis/history"
	"plumbline/analysis/testkit"
)

// hostile are names as no shop should have them: markup, quotes, an end of a script, an emoji, marks that turn the
// direction of writing, and a path out of the folder.
const (
	markup  = `<script>complain('markup')</script>`
	ending  = `</script><script>complain('ending')</script>`
	quoting = `""""`
	strange = "🚗 \u202eabc\u202c \u200f"
	away    = `../../etc/x y`
)

func hostileHistory(t *testing.T) *history.History {
	return testkit.History(t, testkit.Records{
		"jobs": `
			shop,job_no,vin,make,model,opened_at,closed_at,reason,complaint,technician
			` + markup + `,` + away + `,,` + strange + `,` + ending + `,2026-03-02 08:00,2026-03-02 18:00,windshield_replacement,` + markup + `,` + markup + `
			` + markup + `,2,` + markup + `,` + strange + `,` + ending + `,2026-03-03 08:00,2026-03-03 18:00,warning_light,"it said ` + quoting + `",` + strange + `
			` + markup + `,3,1ZZPL4AK3RA942205,` + strange + `,` + ending + `,2026-03-04 08:00,2026-03-04 18:00,other,,` + ending + `
		`,
		"glass": `
			shop,job_no,position,source,brand,supplier
			` + markup + `,` + away + `,windshield,oem,` + ending + `,` + markup + `
			` + markup + `,2,windshield,aftermarket,` + strange + `,` + ending + `
		`,
		"calibrations": `
			shop,job_no,system,attempt_no,method,started_at,ended_at,outcome,failure_code,failure_text,technician,bay,equipment,target,software_version
			` + markup + `,` + away + `,front_camera,1,static,2026-03-02 10:00,2026-03-02 11:00,failed,` + ending + `,` + markup + `,` + markup + `,` + strange + `,` + ending + `,` + markup + `,` + markup + `
			` + markup + `,2,front_camera,1,static,2026-03-03 10:00,2026-03-03 11:00,failed,E1,` + strange + `,` + ending + `,` + markup + `,` + markup + `,` + ending + `,` + strange + `
			` + markup + `,3,front_radar,1,static,2026-03-04 10:00,2026-03-04 11:00,aborted,,,` + ending + `,,,,
		`,
		"scans": `
			shop,job_no,scan_no,stage,scanned_at
			` + markup + `,` + away + `,1,pre,2026-03-02 09:00
			` + markup + `,` + away + `,2,post,2026-03-02 12:00
		`,
		"faults": `
			shop,job_no,scan_no,module,code,status,system,description
			` + markup + `,` + away + `,2,` + ending + `,` + markup + `,active,front_camera,` + strange + `
		`,
	})
}

// Whatever a record holds, a page shows it as text: no markup of its own, no script, no file outside the folder.
func TestNamesStayText(t *testing.T) {
	r, err := Gather(context.Background(), hostileHistory(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Vehicles) != 3 {
		t.Fatalf("%d vehicles with a page, expected all three", len(r.Vehicles))
	}
	parent := t.TempDir()
	dir := filepath.Join(parent, "a", "b")
	if _, err := Write(context.Background(), r, dir); err != nil {
		t.Fatal(err)
	}
	var shown string
	for name, content := range files(t, parent) {
		if !strings.HasPrefix(name, filepath.Join("a", "b")) {
			t.Errorf("%s is outside the folder", name)
		}
		if strings.HasSuffix(name, ".html") {
			shown += content
			if strings.Contains(content, "<script>complain") {
				t.Errorf("%s holds markup from a record", name)
			}
		}
	}
	for _, escaped := range []string{`&lt;script&gt;complain(&#39;markup&#39;)&lt;/script&gt;`, "🚗", "\u202e"} {
		if !strings.Contains(shown, escaped) {
			t.Errorf("no page shows %q", escaped)
		}
	}
	browser := openBrowser(t)
	for name := range files(t, dir) {
		if strings.HasSuffix(name, ".html") {
			if _, complaints := visit(t, browser, filepath.Join(dir, name), 1280); len(complaints) > 0 {
				t.Errorf("%s: %v", name, complaints) // complain() is no function: a script that ran would throw
			}
		}
	}
}

// A history with nothing in it, and a month without a job, still give pages that say so.
func TestNothingToShow(t *testing.T) {
	ctx := context.Background()
	empty, err := history.InMemory(ctx)
	if err != nil {
		t.Fatal(err)
	}
	defer empty.Close()
	for name, c := range map[string]struct {
		history *history.History
		month   string
		says    string
	}{
		"empty history":         {empty, "", "there is nothing to review"},
		"empty history, month":  {empty, "2026-03", "there is nothing to review"},
		"month without records": {hostileHistory(t), "2025-01", "In January 2025 no calibration is on record (no job closed)."},
	} {
		r, err := Gather(ctx, c.history, Options{Month: c.month})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		dir := t.TempDir()
		if _, err := Write(ctx, r, dir); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if index := read(t, filepath.Join(dir, "index.html")); !strings.Contains(index, c.says) {
			t.Errorf("%s: the first page does not say %q:\n%s", name, c.says, index)
		}
		for _, page := range navigation() {
			if text := read(t, filepath.Join(dir, page.File)); !strings.Contains(text, "Caution.") {
				t.Errorf("%s: %s is without the caution", name, page.File)
			}
		}
	}
}

func TestUnknownMonth(t *testing.T) {
	_, err := Gather(context.Background(), hostileHistory(t), Options{Month: "March"})
	if want := `month "March": a month is written as 2026-08`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}
