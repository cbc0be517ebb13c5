package main

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plumbline/cmd/scenario/layout"
)

// The closed lists of words, as the record layout gives them.
var words = map[string]string{
	"reason": "windshield_replacement camera_removed collision_repair wheel_alignment suspension_work sensor_replaced " +
		"software_update warning_light customer_complaint recheck calibration_only other",
	"glass.position": "windshield rear_window front_door rear_door quarter roof",
	"source":         "oem oee aftermarket recycled original unknown",
	"bracket":        "integral transferred new_bonded",
	"system": "front_camera front_radar front_corner_radar rear_corner_radar surround_camera rear_camera lidar infrared_camera " +
		"ultrasonic steering_angle other",
	"position":             "left right center front rear",
	"method":               "static dynamic static_dynamic",
	"calibrations.outcome": "completed failed aborted",
	"provider":             "in_house mobile sublet",
	"stage":                "pre interim post",
	"status":               "active pending stored unknown",
	"outcome":              "passed failed",
	"documents.kind": "pre_scan_report calibration_report post_scan_report road_test_record alignment_record photo procedure " +
		"certificate invoice other",
}

// Which units each quantity may have, as the record layout gives them.
var units = map[string]string{
	"target_distance": "mm cm m in ft", "target_offset": "mm cm m in ft", "target_height": "mm cm m in ft", "ride_height": "mm cm m in ft",
	"tire_pressure": "kPa bar psi", "target_level": "mm_per_m deg pct", "floor_slope": "mm_per_m deg pct", "thrust_angle": "deg mrad",
	"pitch": "deg mrad", "yaw": "deg mrad", "roll": "deg mrad", "ambient_light": "lux fc", "battery_voltage": "V", "fuel_level": "pct",
	"extra_load": "kg lb",
}

// required are the layout's starred columns.
var required = map[string]string{
	"jobs": "shop job_no opened_at reason", "glass": "shop job_no position source",
	"calibrations": "shop job_no system attempt_no started_at outcome", "measurements": "shop job_no quantity value unit",
	"scans": "shop job_no scan_no stage scanned_at", "faults": "shop job_no scan_no module code status",
	"road_tests": "shop job_no test_no started_at outcome", "documents": "shop job_no kind file_name",
	"equipment_checks": "shop equipment checked_at outcome",
}

var keys = map[string]string{
	"jobs": "shop job_no", "glass": "shop job_no position", "calibrations": "shop job_no system position attempt_no",
	"measurements": "shop job_no system position attempt_no quantity", "scans": "shop job_no scan_no",
	"faults": "shop job_no scan_no module code", "road_tests": "shop job_no test_no", "documents": "shop job_no kind file_name",
	"equipment_checks": "shop equipment checked_at",
}

var (
	moments  = strings.Fields("opened_at closed_at installed_at started_at ended_at scanned_at added_at checked_at due_at")
	numbers  = strings.Fields("odometer_km drive_away_min value spec_low spec_high distance_km")
	integers = strings.Fields("model_year attempt_no scan_no test_no modules_polled modules_responded")
	sha256   = regexp.MustCompile(`^[0-9a-f]{64}$`)
)

func TestEveryRowFitsTheLayout(t *testing.T) {
	for _, kind := range layout.Kinds {
		seen := map[string]bool{}
		for i, r := range records(t, kind.Name) {
			for column, value := range r {
				if reason := unfit(kind.Name, column, value, r); reason != "" {
					t.Errorf("%s:%d: %s %q %s", kind.Name, i+2, column, value, reason)
				}
			}
			key := r.key(strings.Fields(keys[kind.Name])...)
			if seen[key] {
				t.Errorf("%s:%d: key %s for the second time", kind.Name, i+2, key)
			}
			seen[key] = true
		}
	}
}

// unfit says what is wrong with a value, if anything.
func unfit(kind, column, value string, r row) string {
	has := func(list, word string) bool { return slices.Contains(strings.Fields(list), word) }
	if value == "" {
		if has(required[kind], column) {
			return "is missing"
		}
		return ""
	}
	list := words[kind+"."+column]
	if list == "" {
		list = words[column]
	}
	_, parsed := strconv.ParseFloat(value, 64)
	whole, notWhole := strconv.Atoi(value)
	_, isTime := timestamp(value)
	switch {
	case value != strings.TrimSpace(value):
		return "has spaces around it"
	case list != "" && !has(list, value):
		return "is no word of the list"
	case slices.Contains(moments, column) && !isTime:
		return "is no timestamp"
	case slices.Contains(numbers, column) && parsed != nil:
		return "is no number"
	case slices.Contains(integers, column) && (notWhole != nil || whole < 1):
		return "is no positive integer"
	case column == "unit" && !has(units[family(r["quantity"])], value):
		return "does not fit " + r["quantity"]
	case column == "sha256" && !sha256.MatchString(value):
		return "is no SHA-256"
	case column == "attempt_no" && r["system"] == "":
		return "has no system"
	}
	return ""
}

// family is the quantity without its corner.
func family(quantity string) string {
	for _, corner := range []string{"_lf", "_rf", "_lr", "_rr"} {
		quantity = strings.TrimSuffix(quantity, corner)
	}
	return quantity
}
