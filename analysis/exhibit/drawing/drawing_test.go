package drawing_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/drawing"
)

type option struct {
	XAxis, YAxis []struct {
		Type string
		Data []any
	}
	Legend struct {
		Data []struct{ Name string }
	}
	Series []struct {
		Name, Type, Symbol string
		Data               []struct {
			Name  string
			Value any
		}
	}
}

func drawn(t *testing.T, d exhibit.Drawing, table *exhibit.Table) (drawing.Chart, option) {
	t.Helper()
	c, err := drawing.Draw("chart-x", d, table)
	if err != nil {
		t.Fatal(err)
	}
	var o option
	if err := json.Unmarshal([]byte(c.Option), &o); err != nil {
		t.Fatal(err)
	}
	return c, o
}

func months() *exhibit.Table {
	return &exhibit.Table{Columns: []exhibit.Column{{Name: "month", Type: exhibit.Month}, {Name: "rate", Type: exhibit.Share}, {Name: "signal", Type: exhibit.Share}},
		Rows: exhibit.Given([]any{"2026-01", 0.125, nil}, []any{"2026-02", nil, nil}, []any{"</script>", 0.5, 0.5})}
}

// A line has a gap where there is no value, a mark only where there is one; shares are in percent; a name that ends a
// script cannot end this one; the legend names a series once.
func TestPeriods(t *testing.T) {
	c, o := drawn(t, exhibit.Drawing{Across: exhibit.Axis{Column: "month", Scale: exhibit.Names}, Up: exhibit.Axis{Type: exhibit.Share},
		Series: []exhibit.Series{{Name: "rate", Column: "rate", Look: exhibit.Track}, {Name: "signal", Column: "signal", Look: exhibit.Beyond},
			{Name: "nothing", Column: "absent", Look: exhibit.Under}}}, months())
	if strings.Contains(string(c.Option), "</script>") {
		t.Error("a record's text ends the script")
	}
	if diff := cmp.Diff([]any{"2026-01", "2026-02", "</script>"}, o.XAxis[0].Data); diff != "" {
		t.Errorf("places (-want +got):\n%s", diff)
	}
	var kinds, names []string
	for _, s := range o.Series {
		kinds = append(kinds, s.Name+" "+s.Type+" "+s.Symbol)
	}
	for _, item := range o.Legend.Data {
		names = append(names, item.Name)
	}
	if diff := cmp.Diff([]string{"rate line none", "rate scatter circle", "signal scatter triangle"}, kinds); diff != "" {
		t.Errorf("series (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"rate", "signal"}, names); diff != "" {
		t.Errorf("legend (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]any{[]any{0.0, 12.5}, []any{1.0, "-"}, []any{2.0, 50.0}}, []any{o.Series[0].Data[0].Value, o.Series[0].Data[1].Value, o.Series[0].Data[2].Value}); diff != "" {
		t.Errorf("line (-want +got):\n%s", diff)
	}
	if len(o.Series[1].Data) != 2 || len(o.Series[2].Data) != 1 {
		t.Errorf("%d marks and %d signals, want 2 and 1", len(o.Series[1].Data), len(o.Series[2].Data))
	}
}

// A drawing with names down its side has its values across, and grows with their number and their length.
func TestLyingDrawing(t *testing.T) {
	d := exhibit.Drawing{Up: exhibit.Axis{Column: "name", Scale: exhibit.Names}, Across: exhibit.Axis{Scale: exhibit.Log},
		Series: []exhibit.Series{{Column: "low", To: "high", Look: exhibit.Span}}}
	of := func(name string) *exhibit.Table {
		return &exhibit.Table{Columns: []exhibit.Column{{Name: "name"}, {Name: "low", Type: exhibit.Ratio}, {Name: "high", Type: exhibit.Ratio}},
			Rows: exhibit.Given([]any{name, 0.5, 2.0}, []any{"none", 0.0, 2.0})}
	}
	short, o := drawn(t, d, of("a"))
	long, _ := drawn(t, d, of(strings.Repeat("長い名前", 12)))
	if long.Height <= short.Height {
		t.Errorf("a name of several lines has no more room: %d and %d px", long.Height, short.Height)
	}
	if o.YAxis[0].Type != "category" || o.XAxis[0].Type != "log" || len(o.Series) != 1 { // 0 has no place on a logarithmic axis
		t.Errorf("axes %s and %s, %d spans", o.YAxis[0].Type, o.XAxis[0].Type, len(o.Series))
	}
	if diff := cmp.Diff([]any{0.5, 0.0}, o.Series[0].Data[0].Value); diff != "" {
		t.Errorf("span (-want +got):\n%s", diff)
	}
}
