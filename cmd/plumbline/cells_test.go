package main

import (
	"strings"
	"testing"
	"time"
)

// A file read with commas or with semicolons between its fields has no text that runs. Source of the characters: OWASP,
// CSV Injection.
func TestCSVTextHoldsWhatWouldRun(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "stone chip": "stone chip", "a=1": "a=1", "C1101;U0100": "C1101;U0100", "a; -b": "a; -b",
		"=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@x": "'@x", "\tx": "'\tx", "\rx": "'\rx",
		"chip;=1+1": "chip;'=1+1", ";@x;;\t-": ";'@x;;'\t-",
	} {
		got := csvText(text)
		if got != want {
			t.Errorf("%q becomes %q, expected %q", text, got, want)
		}
		for cell := range strings.SplitSeq(got, ";") {
			if cell != "" && strings.Contains("=+-@\t\r", cell[:1]) {
				t.Errorf("%q becomes %q, in which a spreadsheet may run %q", text, got, cell)
			}
		}
	}
	at := time.Date(2026, 1, 5, 8, 0, 0, 0, time.UTC)
	for want, cell := range map[string]any{"-1.5": -1.5, "-3": int64(-3), "2026-01-05 08:00:00": at} {
		if got := csvText(cell); got != want {
			t.Errorf("%v is written %q, expected %q", cell, got, want)
		}
	}
}
