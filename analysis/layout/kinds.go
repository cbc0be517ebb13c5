package layout

// The shorthand in which Kinds is written.
func text(name string) Column          { return Column{Name: name, Type: Text} }
func typed(name string, t Type) Column { return Column{Name: name, Type: t} }
func word(name, enum string, words ...string) Column {
	return Column{Name: name, Type: Word, Enum: enum, Words: words}
}
func identifying(c Column) Column           { c.Identifier = true; return c }
func identifier(name string) Column         { return identifying(text(name)) }
func required(c Column) Column              { c.Required = true; return c }
func key(c Column) Column                   { c.Key = true; return c }
func requiredKey(c Column) Column           { return key(required(c)) }
func about(c Column, meaning string) Column { c.Meaning = meaning; return c }

var (
	shop  = about(requiredKey(identifier("shop")), "the shop's identifier")
	jobNo = about(requiredKey(identifier("job_no")), "the shop's repair-order number")

	system = word("system", "system_word", "front_camera", "front_radar", "front_corner_radar", "rear_corner_radar",
		"surround_camera", "rear_camera", "lidar", "infrared_camera", "ultrasonic", "steering_angle", "other")
	position = about(key(word("position", "position_word", "left", "right", "center", "front", "rear")),
		"which of several like sensors; empty for the system as a whole")
	attemptNo = key(typed("attempt_no", Integer))
	scanNo    = key(typed("scan_no", Integer))
	stage     = word("stage", "stage_word", "pre", "interim", "post")
	unit      = word("unit", "unit_word", "mm", "cm", "m", "in", "ft", "kPa", "bar", "psi", "deg", "mrad", "lux", "fc", "V",
		"pct", "mm_per_m", "kg", "lb")
	testOutcome = required(word("outcome", "test_outcome_word", "passed", "failed"))
)

const unnumbered = "empty where the source numbers nothing: the moment then names the record"

// Kinds is the record layout, the one place where it is written: tables, readers, checks, messages, profiles, exports,
// bundles and the generator follow it.
var Kinds = []Kind{
	{Name: "jobs", Title: "one visit of one vehicle", Columns: []Column{
		shop, jobNo,
		about(identifying(typed("vin", VIN)), "kept as read when malformed, and marked so"),
		typed("model_year", Integer), text("make"), text("model"),
		about(typed("odometer_km", Number), "at arrival"),
		about(required(typed("opened_at", Moment)), "vehicle in"),
		about(typed("closed_at", LastMoment), "vehicle out; empty while the job is open"),
		required(word("reason", "reason_word", "windshield_replacement", "camera_removed", "collision_repair",
			"wheel_alignment", "suspension_work", "sensor_replaced", "software_update", "warning_light",
			"customer_complaint", "recheck", "calibration_only", "other")),
		about(text("complaint"), "the customer's words"),
		text("insurer"), identifier("claim_no"),
		about(identifier("comeback_of"), "the earlier job in the same shop, where the shop linked them itself"),
		about(identifier("technician"), "who led the job"),
	}},
	{Name: "glass", Title: "one pane fitted in a job", Columns: []Column{
		shop, jobNo,
		requiredKey(word("position", "pane_word", "windshield", "rear_window", "front_door", "rear_door", "quarter", "roof")),
		about(required(word("source", "glass_source_word", "oem", "oee", "aftermarket", "recycled", "original", "unknown")),
			"oem the vehicle maker's own part, oee equivalent to the original, original taken out and refitted"),
		text("brand"), identifier("part_no"), text("supplier"),
		about(word("bracket", "bracket_word", "integral", "transferred", "new_bonded"), "how the camera bracket came"),
		about(typed("installed_at", Moment), "adhesive bead closed"),
		about(typed("drive_away_min", Number), "the adhesive maker's safe drive-away time, minutes"),
		text("installer"),
	}},
	{Name: "calibrations", Title: "one attempt on one system", Columns: []Column{
		shop, jobNo, requiredKey(system), position, about(attemptNo, "within the job, system and position; "+unnumbered),
		word("method", "method_word", "static", "dynamic", "static_dynamic"),
		required(typed("started_at", Moment)), typed("ended_at", EndMoment),
		required(word("outcome", "attempt_outcome_word", "completed", "failed", "aborted")),
		about(identifier("failure_code"), "as the calibration report gives it"),
		about(text("failure_text"), "as the calibration report gives it"),
		identifier("technician"), identifier("bay"),
		about(identifier("equipment"), "the stand or frame"), about(identifier("target"), "the board"),
		about(identifier("software_version"), "of the calibration equipment"),
		about(text("procedure"), "the maker's procedure followed, with its version or date"),
		about(word("provider", "provider_word", "in_house", "mobile", "sublet"), "who did it"),
	}},
	{Name: "measurements", Title: "one measured quantity, in the quantity's own unit", Columns: []Column{
		shop, jobNo,
		about(key(system), "of the attempt; empty, with number and start, for a measurement of the whole job"),
		position, attemptNo,
		about(typed("started_at", Moment), "of the attempt, where it has no number"),
		requiredKey(word("quantity", "quantity_word", "target_distance", "target_offset", "target_height",
			"target_level", "ride_height_lf", "ride_height_rf", "ride_height_lr", "ride_height_rr",
			"tire_pressure_lf", "tire_pressure_rf", "tire_pressure_lr", "tire_pressure_rr", "floor_slope",
			"ambient_light", "battery_voltage", "fuel_level", "thrust_angle", "pitch", "yaw", "roll", "extra_load")),
		required(typed("value", Number)),
		about(required(unit), "must fit the quantity"),
		about(typed("spec_low", Number), "the procedure's tolerance, in the same unit"),
		about(typed("spec_high", Number), "the procedure's tolerance, in the same unit"),
	}, Beside: []Column{
		required(text("value_written")), required(word("unit_written", unit.Enum, unit.Words...)),
	}},
	{Name: "scans", Title: "one reading of the vehicle's modules", Columns: []Column{
		shop, jobNo, about(scanNo, "within the job; "+unnumbered), required(stage), required(typed("scanned_at", Moment)),
		about(typed("modules_polled", Integer), "modules asked"),
		about(typed("modules_responded", Integer), "modules that answered"),
		identifier("technician"),
	}},
	{Name: "faults", Title: "one trouble code read by a scan", Columns: []Column{
		shop, jobNo, about(scanNo, "empty: stage and scanned_at name the scan"),
		about(stage, "of the scan, where it has no number"),
		about(typed("scanned_at", Moment), "of the scan, where it has no number"),
		about(requiredKey(identifier("module")), "as the scan names it"),
		about(requiredKey(identifying(typed("code", TroubleCode))), "kept as read when it is not of the standard form, and marked so"),
		required(word("status", "fault_status_word", "active", "pending", "stored", "unknown")),
		about(system, "the driver-assistance system that the module serves; empty for any other module"),
		text("description"),
	}},
	{Name: "road_tests", Title: "one road test", Columns: []Column{
		shop, jobNo, about(key(typed("test_no", Integer)), "within the job; "+unnumbered),
		required(typed("started_at", Moment)), typed("ended_at", EndMoment), typed("distance_km", Number), testOutcome,
		about(identifier("technician"), "who drove"), text("note"),
	}},
	{Name: "documents", Title: "one document of a job", Columns: []Column{
		shop, jobNo,
		about(requiredKey(word("kind", "document_word", "pre_scan_report", "calibration_report", "post_scan_report",
			"road_test_record", "alignment_record", "photo", "procedure", "certificate", "invoice", "other")),
			"certificate: of a technician or of equipment"),
		requiredKey(text("file_name")), about(typed("sha256", SHA256), "of the file"), typed("added_at", Moment),
	}},
	{Name: "equipment_checks", Title: "one verification of a stand, target, level or other tool", Columns: []Column{
		shop, requiredKey(identifier("equipment")), requiredKey(typed("checked_at", Moment)), testOutcome,
		about(typed("due_at", LastMoment), "of the next check"), text("note"),
	}},
	{Name: "actions", Title: "something done about quality", Columns: []Column{
		shop,
		requiredKey(word("subject_kind", "subject_word", "technician", "bay", "equipment", "target", "supplier",
			"software_version", "shop")),
		about(key(identifier("subject")), "empty only where the kind is shop"), requiredKey(typed("taken_at", Moment)),
		required(text("what")), text("by"),
	}},
}
