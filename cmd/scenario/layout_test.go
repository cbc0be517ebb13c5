package main

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plumbline/analysis/layout"
)

// Which units each quantity may have, as the record layout gives them.
var units = map[string]string{
	"target_distance": "mm cm m in ft", "target_offset": "mm cm m in ft", "target_height": "mm cm m in ft", "ride_height": "mm cm m in ft",
	"tire_pressure": "kPa bar psi", "target_level": "mm_per_m deg pct", "floor_slope": "mm_per_m deg pct", "thrust_angle": "deg mrad",
	"pitch": "deg mrad", "yaw": "deg mrad", "roll": "deg mrad", "ambient_light": "lux fc", "battery_voltage": "V", "fuel_level": "pct",
	"extra_load": "kg lb",
}

var (
	sha256  = regexp.MustCompile(`^[0-9a-f]{64}$`)
	moments = columnsOf(layout.Moment, layout.LastMoment, layout.EndMoment)
)

// columnsOf names the columns of these types, of whatever kind.
func columnsOf(types ...layout.Type) []string {
	var names []string
	for _, kind := range layout.Kinds {
		for _, column := range kind.Columns {
			if slices.Contains(types, column.Type) && !slices.Contains(names, column.Name) {
				names = append(names, column.Name)
			}
		}
	}
	return names
}

func TestEveryRowFitsTheLayout(t *testing.T) {
	for _, kind := range layout.Kinds {
		seen := map[string]bool{}
		for i, r := range records(t, kind.Name) {
			var key []string
			for _, column := range kind.Columns {
				if reason := unfit(column, r); reason != "" {
					t.Errorf("%s:%d: %s %q %s", kind.Name, i+2, column.Name, r[column.Name], reason)
				}
				if column.Key {
					key = append(key, r[column.Name])
				}
			}
			if joined := strings.Join(key, "|"); seen[joined] {
				t.Errorf("%s:%d: key %s for the second time", kind.Name, i+2, joined)
			} else {
				seen[joined] = true
			}
		}
	}
}

// unfit says what is wrong with a value of the row, if anything.
func unfit(column layout.Column, r row) string {
	value := r[column.Name]
	if value == "" {
		if column.Required {
			return "is missing"
		}
		return ""
	}
	_, parsed := strconv.ParseFloat(value, 64)
	whole, notWhole := strconv.Atoi(value)
	_, isTime := timestamp(value)
	switch {
	case value != strings.TrimSpace(value):
		return "has spaces around it"
	case column.Type == layout.Word && !slices.Contains(column.Words, value):
		return "is no word of the list"
	case column.IsMoment() && !isTime:
		return "is no timestamp"
	case column.Type == layout.Number && parsed != nil:
		return "is no number"
	case column.Type == layout.Integer && (notWhole != nil || whole < 1):
		return "is no positive integer"
	case column.Name == "unit" && !slices.Contains(strings.Fields(units[family(r["quantity"])]), value):
		return "does not fit " + r["quantity"]
	case column.Type == layout.SHA256 && !sha256.MatchString(value):
		return "is no SHA-256"
	case column.Name == "attempt_no" && r["system"] == "":
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
