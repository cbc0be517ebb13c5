// Package layout is the record layout, said once: the kinds of record, their columns, types, keys and words. It imports
// nothing of the project; readers, checks, messages, profiles and exports follow it.
package layout

import "slices"

// A Type says how a column's text becomes a value.
type Type int

// The types of the record layout.
const (
	Text       Type = iota
	Moment          // a timestamp; a date alone is the day's first moment
	LastMoment      // a timestamp; a date alone is the day's last second
	EndMoment       // a timestamp; a date alone is missing
	Number
	Integer
	Word
	VIN
	TroubleCode
	SHA256
)

// A Column is one column of a kind of record.
type Column struct {
	Name     string
	Type     Type
	Required bool
	Key      bool
	Enum     string   // the word's type in SQL
	Words    []string // the words of a Word, as they are stored
}

// A Kind is one of the ten kinds of record.
type Kind struct {
	Name    string // "jobs": the table, and the usual file
	Columns []Column
}

// Column finds a column by name; nil where the kind has none of that name.
func (k *Kind) Column(name string) *Column {
	for i := range k.Columns {
		if k.Columns[i].Name == name {
			return &k.Columns[i]
		}
	}
	return nil
}

// HasMoments tells whether the kind has timestamps, and so remembers which were dates alone.
func (k *Kind) HasMoments() bool {
	return slices.ContainsFunc(k.Columns, func(c Column) bool { return c.IsMoment() })
}

func (c Column) IsMoment() bool {
	return c.Type == Moment || c.Type == LastMoment || c.Type == EndMoment
}

// KindNamed finds a kind by name; nil where there is none.
func KindNamed(name string) *Kind {
	for i := range Kinds {
		if Kinds[i].Name == name {
			return &Kinds[i]
		}
	}
	return nil
}

// KindNames lists the kinds in the order of the layout.
func KindNames() []string {
	names := make([]string, len(Kinds))
	for i := range Kinds {
		names[i] = Kinds[i].Name
	}
	return names
}

// The shorthand in which Kinds is written.
func text(name string) Column          { return Column{Name: name, Type: Text} }
func typed(name string, t Type) Column { return Column{Name: name, Type: t} }
func word(name, enum string, words ...string) Column {
	return Column{Name: name, Type: Word, Enum: enum, Words: words}
}
func required(c Column) Column    { c.Required = true; return c }
func key(c Column) Column         { c.Key = true; return c }
func requiredKey(c Column) Column { return key(required(c)) }

var (
	shop  = requiredKey(text("shop"))
	jobNo = requiredKey(text("job_no"))

	system = word("system", "system_word", "front_camera", "front_radar", "front_corner_radar", "rear_corner_radar",
		"surround_camera", "rear_camera", "lidar", "infrared_camera", "ultrasonic", "steering_angle", "other")
	position    = key(word("position", "position_word", "left", "right", "center", "front", "rear"))
	stage       = word("stage", "stage_word", "pre", "interim", "post")
	testOutcome = required(word("outcome", "test_outcome_word", "passed", "failed"))
)

// Kinds is the record layout, the one place where it is written in Go: readers, checks, messages and profiles follow it.
var Kinds = []Kind{
	{"jobs", []Column{
		shop, jobNo, typed("vin", VIN), typed("model_year", Integer), text("make"), text("model"),
		typed("odometer_km", Number), required(typed("opened_at", Moment)), typed("closed_at", LastMoment),
		required(word("reason", "reason_word", "windshield_replacement", "camera_removed", "collision_repair",
			"wheel_alignment", "suspension_work", "sensor_replaced", "software_update", "warning_light",
			"customer_complaint", "recheck", "calibration_only", "other")),
		text("complaint"), text("insurer"), text("claim_no"), text("comeback_of"), text("technician"),
	}},
	{"glass", []Column{
		shop, jobNo, requiredKey(word("position", "pane_word", "windshield", "rear_window", "front_door", "rear_door",
			"quarter", "roof")),
		required(word("source", "glass_source_word", "oem", "oee", "aftermarket", "recycled", "original", "unknown")),
		text("brand"), text("part_no"), text("supplier"),
		word("bracket", "bracket_word", "integral", "transferred", "new_bonded"),
		typed("installed_at", Moment), typed("drive_away_min", Number), text("installer"),
	}},
	{"calibrations", []Column{
		shop, jobNo, requiredKey(system), position, key(typed("attempt_no", Integer)),
		word("method", "method_word", "static", "dynamic", "static_dynamic"),
		required(typed("started_at", Moment)), typed("ended_at", EndMoment),
		required(word("outcome", "attempt_outcome_word", "completed", "failed", "aborted")),
		text("failure_code"), text("failure_text"), text("technician"), text("bay"), text("equipment"), text("target"),
		text("software_version"), text("procedure"), word("provider", "provider_word", "in_house", "mobile", "sublet"),
	}},
	{"measurements", []Column{
		shop, jobNo, key(system), position, key(typed("attempt_no", Integer)), typed("started_at", Moment),
		requiredKey(word("quantity", "quantity_word", "target_distance", "target_offset", "target_height",
			"target_level", "ride_height_lf", "ride_height_rf", "ride_height_lr", "ride_height_rr",
			"tire_pressure_lf", "tire_pressure_rf", "tire_pressure_lr", "tire_pressure_rr", "floor_slope",
			"ambient_light", "battery_voltage", "fuel_level", "thrust_angle", "pitch", "yaw", "roll", "extra_load")),
		required(typed("value", Number)),
		required(word("unit", "unit_word", "mm", "cm", "m", "in", "ft", "kPa", "bar", "psi", "deg", "mrad", "lux", "fc",
			"V", "pct", "mm_per_m", "kg", "lb")),
		typed("spec_low", Number), typed("spec_high", Number),
	}},
	{"scans", []Column{
		shop, jobNo, key(typed("scan_no", Integer)), required(stage), required(typed("scanned_at", Moment)),
		typed("modules_polled", Integer), typed("modules_responded", Integer), text("technician"),
	}},
	{"faults", []Column{
		shop, jobNo, key(typed("scan_no", Integer)), stage, typed("scanned_at", Moment),
		requiredKey(text("module")), requiredKey(typed("code", TroubleCode)),
		required(word("status", "fault_status_word", "active", "pending", "stored", "unknown")),
		system, text("description"),
	}},
	{"road_tests", []Column{
		shop, jobNo, key(typed("test_no", Integer)), required(typed("started_at", Moment)),
		typed("ended_at", EndMoment), typed("distance_km", Number), testOutcome, text("technician"), text("note"),
	}},
	{"documents", []Column{
		shop, jobNo, requiredKey(word("kind", "document_word", "pre_scan_report", "calibration_report",
			"post_scan_report", "road_test_record", "alignment_record", "photo", "procedure", "certificate", "invoice",
			"other")),
		requiredKey(text("file_name")), typed("sha256", SHA256), typed("added_at", Moment),
	}},
	{"equipment_checks", []Column{
		shop, requiredKey(text("equipment")), requiredKey(typed("checked_at", Moment)), testOutcome,
		typed("due_at", LastMoment), text("note"),
	}},
	{"actions", []Column{
		shop, requiredKey(word("subject_kind", "subject_word", "technician", "bay", "equipment", "target", "supplier",
			"software_version", "shop")),
		key(text("subject")), requiredKey(typed("taken_at", Moment)), required(text("what")), text("by"),
	}},
}
