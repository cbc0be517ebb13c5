package page_test

import (
	"fmt"
	"strings"
	"testing"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/page"
)

func rates(n int) exhibit.Exhibit {
	t := &exhibit.Table{All: "plumbline all", Columns: []exhibit.Column{{Name: "group"}, {Name: "rate", Type: exhibit.Share}, {Name: "low", Type: exhibit.Share, To: "high",
		Span: "95 % interval"}, {Name: "high", Type: exhibit.Share}, {Name: "deep", Rank: exhibit.Depth}, {Name: "call", Type: exhibit.Word}}}
	t.Rows = exhibit.Rows{Len: n, At: func(i int) []any {
		name := exhibit.Cell{Value: fmt.Sprintf("<b>%d</b>", i), Link: "vehicles/x.html"}
		return []any{name, 0.25, 0.125, 0.5, "never shown", exhibit.Cell{Value: "higher", Mark: exhibit.Higher}}
	}}
	return exhibit.Exhibit{Name: "rates", Title: "Rates", Says: []string{"One.", "Two."}, Points: []string{"a point"}, Table: t,
		Drawing: &exhibit.Drawing{Title: "drawn", Alt: "dots", Up: exhibit.Axis{Column: "group", Scale: exhibit.Names}, Across: exhibit.Axis{Type: exhibit.Share},
			Series: []exhibit.Series{{Name: "rate", Column: "rate", Look: exhibit.Dot}}}}
}

// A page shows what an exhibit holds: intervals as one, marks with their shape, links from its own folder, text as text,
// and no more rows than can be read, with the command that shows all.
func TestPageOfAnExhibit(t *testing.T) {
	text, err := page.Render(page.Page{File: "vehicles/a.html", Title: "A", Sections: page.Of(rates(300))})
	if err != nil {
		t.Fatal(err)
	}
	shown := string(text)
	for _, want := range []string{"12.5–50.0\u00a0%", "▲ higher", `<a href="../vehicles/x.html"><bdi>&lt;b&gt;0&lt;/b&gt;</bdi></a>`, "95 % interval", "a point", "<noscript>",
		"200 of 300 rows are shown. All of them: plumbline all", `src="../assets/echarts.min.js"`, `data-chart="chart-a-rates"`} {
		if !strings.Contains(shown, want) {
			t.Errorf("the page does not hold %q", want)
		}
	}
	for _, never := range []string{"never shown", "<b>0", "<th scope=\"col\" class=\"n\">High</th>"} {
		if strings.Contains(shown, never) {
			t.Errorf("the page holds %q", never)
		}
	}
	if strings.Index(shown, "a point") > strings.Index(shown, "Two.") {
		t.Error("what is called out stands after the second sentence")
	}
}

// An exhibit of words alone has no table, no script and no notice that drawings need one.
func TestPageOfWords(t *testing.T) {
	text, err := page.Render(page.Page{File: "a.html", Title: "A", Sections: page.Of(exhibit.Exhibit{Name: "w", Title: "W", Says: []string{"None."}})})
	if err != nil {
		t.Fatal(err)
	}
	for _, never := range []string{"<table", "<script", "<noscript"} {
		if strings.Contains(string(text), never) {
			t.Errorf("the page holds %q", never)
		}
	}
}
