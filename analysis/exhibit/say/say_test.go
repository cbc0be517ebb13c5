package say_test

import (
	"testing"

	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/say"
)

func TestValues(t *testing.T) {
	small, none := 0.0004, (*float64)(nil)
	for _, c := range []struct {
		of    exhibit.Type
		value any
		want  string
	}{
		{exhibit.Share, 0.8304, "83.0\u00a0%"}, {exhibit.Share, none, "–"}, {exhibit.Text, none, ""}, {exhibit.Change, -0.016, "−1.6"}, {exhibit.Change, 0.0001, "0.0"},
		{exhibit.Probability, &small, "< 0.001"}, {exhibit.Count, int64(1234567), "1,234,567"}, {exhibit.Word, "front_camera", "front camera"},
		{exhibit.Level, -0.001, "0.00"}, {exhibit.Level, -1.5, "−1.50"}, {exhibit.UnitChange, 0.25, "+0.25"}, {exhibit.Month, "2026-03", "2026-03"}, {exhibit.Text, true, "yes"},
	} {
		if got := say.Value(exhibit.Column{Type: c.of}, c.value); got != c.want {
			t.Errorf("type %d, %v: %q, want %q", c.of, c.value, got, c.want)
		}
	}
}

func TestIntervals(t *testing.T) {
	share, change := exhibit.Column{Type: exhibit.Share}, exhibit.Column{Type: exhibit.Change}
	if got := say.Interval(share, 0.1, 0.2); got != "10.0–20.0\u00a0%" {
		t.Errorf("share: %q", got)
	}
	if got := say.Interval(change, -0.1, 0.2); got != "−10.0 to +20.0" {
		t.Errorf("change: %q", got)
	}
	if got := say.Interval(share, nil, 0.2); got != "–" {
		t.Errorf("half known: %q", got)
	}
}

func TestNumbersAgreeWithTheirNouns(t *testing.T) {
	for n, want := range map[int64]string{0: "no job", 1: "1 job", 2: "2 jobs", 1000: "1,000 jobs"} {
		if got := say.NoneOr(n, "job", "jobs"); got != want {
			t.Errorf("%d: %q", n, got)
		}
	}
	for want, names := range map[string][]string{"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}} {
		if got := say.And(names); got != want {
			t.Errorf("%v: %q", names, got)
		}
	}
	if got := say.Sentence("none of it"); got != "None of it" {
		t.Errorf("%q", got)
	}
}
