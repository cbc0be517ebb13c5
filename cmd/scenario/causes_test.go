package main

import (
	"math"
	"testing"
)

// What a report gives as the reason of a failure shows in the attempt's
// readings: the quantity is out of tolerance.
func TestReadingsShowWhyAnAttemptFailed(t *testing.T) {
	shows := map[string]string{"E112": "target_distance", "E120": "pitch", "E121": "yaw", "E131": "ambient_light", "E140": "battery_voltage"}
	code := map[string]string{}
	for _, r := range records(t, "calibrations") {
		code[r.key("shop", "job_no", "system", "position", "attempt_no")] = r["failure_code"]
	}
	shown := map[string]int{}
	for _, r := range records(t, "measurements") {
		because := code[r.key("shop", "job_no", "system", "position", "attempt_no")]
		if because == "" || shows[because] != r["quantity"] {
			continue
		}
		low, high := math.Inf(-1), math.Inf(1)
		if r["spec_low"] != "" {
			low = number(r["spec_low"])
		}
		if r["spec_high"] != "" {
			high = number(r["spec_high"])
		}
		if value := number(r["value"]); value >= low && value <= high {
			t.Errorf("%s failed with %s, but its %s %v lies within %v to %v", r.job(), because, r["quantity"], value, low, high)
		}
		shown[because]++
	}
	for because := range shows {
		few(t, "attempts with "+because+" and its reading", shown[because], 150)
	}
}
