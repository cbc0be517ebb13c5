package draft

import (
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// tradeWords are the trade's short names for words of the layout. Common practice, no source.
var tradeWords = map[string]map[string]string{
	"reason": {"w/s r&r": "windshield_replacement", "w/s": "windshield_replacement", "windshield": "windshield_replacement",
		"glass": "windshield_replacement", "windscreen": "windshield_replacement", "windshield r&r": "windshield_replacement",
		"cam r&i": "camera_removed", "camera r&i": "camera_removed", "body": "collision_repair", "collision": "collision_repair",
		"align": "wheel_alignment", "alignment": "wheel_alignment", "susp.": "suspension_work", "susp": "suspension_work",
		"suspension": "suspension_work", "sensor": "sensor_replaced", "sw upd.": "software_update", "software": "software_update",
		"warning": "warning_light", "light on": "warning_light", "lamp on": "warning_light", "compl.": "customer_complaint",
		"complaint": "customer_complaint", "re-check": "recheck", "cal only": "calibration_only", "calibration": "calibration_only",
		"misc": "other"},
	"position": {"ws": "windshield", "w/s": "windshield", "windscreen": "windshield", "back glass": "rear_window", "back window": "rear_window",
		"l": "left", "lh": "left", "r": "right", "rh": "right"},
	"source":  {"a/m": "aftermarket", "am": "aftermarket", "used": "recycled", "r&i own": "original", "r&i": "original", "own": "original", "?": "unknown"},
	"bracket": {"on glass": "integral", "moved over": "transferred", "new, glued": "new_bonded", "new": "new_bonded"},
	"outcome": {"ok": "completed", "pass": "completed", "passed": "completed", "good": "completed", "done": "completed", "successful": "completed",
		"fail": "failed", "ng": "failed", "stopped": "aborted", "cancelled": "aborted", "y": "passed", "n": "failed", "yes": "passed", "no": "failed"},
	"method": {"board": "static", "target": "static", "drive": "dynamic", "driving": "dynamic", "board + drive": "static_dynamic",
		"both": "static_dynamic", "static + dynamic": "static_dynamic", "static/dynamic": "static_dynamic"},
	"provider": {"shop": "in_house", "own": "in_house", "van": "mobile", "sent out": "sublet"},
	"system": {"camera": "front_camera", "windshield camera": "front_camera", "lane camera": "front_camera", "radar": "front_radar",
		"cruise radar": "front_radar", "corner radar": "front_corner_radar", "rear radar": "rear_corner_radar",
		"blind spot radar": "rear_corner_radar", "blind spot": "rear_corner_radar", "sas": "steering_angle",
		"steering angle sensor": "steering_angle", "360 camera": "surround_camera", "surround view": "surround_camera",
		"backup camera": "rear_camera", "reverse camera": "rear_camera", "night camera": "infrared_camera",
		"night vision": "infrared_camera", "park sensors": "ultrasonic", "parking sensors": "ultrasonic"},
	"stage":  {"before": "pre", "pre-repair": "pre", "in": "pre", "after": "post", "post-repair": "post", "out": "post"},
	"status": {"current": "active", "present": "active", "history": "stored", "confirmed": "stored"},
}

// wordFor is the layout's word for a value, empty where neither the layout nor the trade knows it. An outcome that two
// Kinds word in two ways is looked up in the column's own words.
func wordFor(column layout.Column, value string) string {
	plain := strings.ToLower(strings.TrimSpace(value))
	for _, word := range column.Words {
		if strings.EqualFold(word, layout.PlainName(plain)) {
			return word
		}
	}
	word := tradeWords[column.Name][plain]
	if column.Name == "outcome" && slices.Contains(column.Words, "passed") != slices.Contains([]string{"passed"}, word) {
		word = map[string]string{"completed": "passed", "passed": "completed"}[word]
		if tradeWords["outcome"][plain] == "failed" {
			word = "failed"
		}
	}
	if !slices.Contains(column.Words, word) {
		return ""
	}
	return word
}

// distinct lists the different values, in their order.
func distinct(values []string) []string {
	var seen []string
	for _, value := range values {
		if value = strings.TrimSpace(value); value != "" && !slices.Contains(seen, value) {
			seen = append(seen, value)
		}
	}
	return seen
}

// wordsOf maps the values that are not the layout's words already, where the trade's usage is known; unknown are those
// where it is not.
func wordsOf(column layout.Column, values []string) (pairs, unknown []string) {
	folded := map[string]bool{}
	for _, value := range distinct(values) {
		if lower := strings.ToLower(value); folded[lower] {
			continue
		} else {
			folded[lower] = true
		}
		word := wordFor(column, value)
		switch {
		case word == "":
			unknown = append(unknown, value)
		case !strings.EqualFold(word, layout.PlainName(value)):
			pairs = append(pairs, tomlText(value)+" = "+tomlText(word))
		}
	}
	slices.Sort(pairs)
	return pairs, unknown
}

// share says which part of the values a test holds for; 0 of none.
func share(values []string, holds func(string) bool) float64 {
	fitting := 0
	for _, value := range values {
		if holds(strings.TrimSpace(value)) {
			fitting++
		}
	}
	return float64(fitting) / float64(max(1, len(values)))
}

var listMarks = []string{";", "\n", "|", " + ", " / ", ","}

// separatorOf is the mark between the items of the cells, as a regular expression: the first that cuts most cells.
func separatorOf(values []string) string {
	for _, mark := range listMarks {
		if share(values, func(value string) bool { return strings.Contains(value, mark) }) > 0.02 {
			return regexp.QuoteMeta(mark)
		}
	}
	return ";"
}

// itemsOf cuts the cells into items.
func itemsOf(values []string, separator string) []string {
	cut := regexp.MustCompile(separator)
	var items []string
	for _, value := range values {
		for _, item := range cut.Split(value, -1) {
			if item = strings.TrimSpace(item); item != "" {
				items = append(items, item)
			}
		}
	}
	return items
}
