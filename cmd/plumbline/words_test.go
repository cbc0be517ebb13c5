package main

import "testing"

// Source of the steps: Wagner & Fischer (1974) give the algorithm; kitten and sitting, 3, is its usual example, from
// memory.
func TestStepsBetween(t *testing.T) {
	for pair, want := range map[[2]string]int{
		{"kitten", "sitting"}: 3, {"", "abc"}: 3, {"abc", ""}: 3, {"same", "same"}: 0, {"é", "e"}: 1, {"ab", "ba"}: 2,
	} {
		if got := stepsBetween(pair[0], pair[1]); got != want {
			t.Errorf("%q and %q are %d steps apart, expected %d", pair[0], pair[1], got, want)
		}
	}
}

func TestNearest(t *testing.T) {
	words := []string{"comeback", "post_scan_fault", "missing_scan", "missing_road_test", "low", "high"}
	for text, want := range map[string]string{
		"comebacks": "comeback", "Post scan fault": "post_scan_fault", "post-scan": "post_scan_fault", "comback": "comeback",
		"missing": "", // two begin so
		"hgih":    "", // two steps of four letters are too far
		"returns": "", "": "", "hig": "high",
	} {
		if got := nearest(words, text); got != want {
			t.Errorf("nearest to %q is %q, expected %q", text, got, want)
		}
	}
}
