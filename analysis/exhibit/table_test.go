package exhibit_test

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/exhibit"
)

type word string

func TestSettle(t *testing.T) {
	text, at := "x", time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct{ given, want any }{
		{nil, nil}, {(*string)(nil), nil}, {&text, "x"}, {word("higher"), "higher"}, {int32(7), int64(7)}, {math.NaN(), nil}, {math.Inf(1), nil}, {0.5, 0.5},
		{exhibit.Cell{Value: &text, Mark: exhibit.Higher}, "x"}, {[]word{"a", "b"}, []any{"a", "b"}}, {at, at}, {&at, at}, {true, true},
	} {
		if diff := cmp.Diff(c.want, exhibit.Settle(c.given)); diff != "" {
			t.Errorf("%v (-want +got):\n%s", c.given, diff)
		}
	}
}

// A stack holds all rows under its keys, and each table knows where its own begin.
func TestStack(t *testing.T) {
	of := func(values ...int) *exhibit.Table {
		return &exhibit.Table{Columns: []exhibit.Column{{Name: "n", Type: exhibit.Count}}, Rows: exhibit.Each(values, func(n int) []any { return []any{n} })}
	}
	tables := []*exhibit.Table{of(1, 2), of(), of(3)}
	all := exhibit.Stack([]exhibit.Column{{Name: "by"}}, tables, func(i int) []any { return []any{string(rune('a' + i))} })
	var got [][]any
	for i := range all.Rows.Len {
		got = append(got, all.Rows.At(i))
	}
	if diff := cmp.Diff([][]any{{"a", 1}, {"a", 2}, {"c", 3}}, got); diff != "" {
		t.Errorf("rows (-want +got):\n%s", diff)
	}
	if whole, offset := tables[2].Stacked(); whole != all || offset != 2 {
		t.Errorf("the third table begins at %d of %p, want 2 of %p", offset, whole, all)
	}
	if value := all.Value(2, "n"); value != int64(3) {
		t.Errorf("value %v", value)
	}
}

func TestColumnsKnowTheirPlaces(t *testing.T) {
	t1 := &exhibit.Table{Columns: []exhibit.Column{{Name: "key"}, {Name: "deep", Rank: exhibit.Depth}, {Name: "drawn", Only: exhibit.Sheets}}}
	for place, want := range map[exhibit.Place][]int{exhibit.Files: {0, 1}, exhibit.Pages: {0}, exhibit.Sheets: {0, 1, 2}} {
		if diff := cmp.Diff(want, t1.In(place)); diff != "" {
			t.Errorf("place %d (-want +got):\n%s", place, diff)
		}
	}
}
