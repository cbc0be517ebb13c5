package review

import "plumbline/analysis/quality"

// A kindWord is a kind of finding for a reader: its name, and what it means for the shop.
type kindWord struct{ name, means string }

var kindWords = map[string]kindWord{
	"failed_calibration":     {"Attempt not completed", "The equipment reported a failure, or the attempt was broken off."},
	"repeated_calibration":   {"Calibration repeated", "The same calibration was done more than once in one visit."},
	"unresolved_calibration": {"Calibration left unfinished", "The job was closed and the last attempt had not completed."},
	"attempt_gap":            {"Attempt number missing", "Attempt numbers do not run 1, 2, 3: a record may have been taken out."},
	"missing_calibration":    {"Calibration missing", "The work calls for a calibration and none is on record."},
	"comeback":               {"Comeback", "The vehicle returned after a calibration."},
	"broken_link":            {"Link to an earlier job broken", "The job names an earlier one that cannot be the one meant."},
	"post_scan_fault":        {"Fault after calibration", "The last scan still read an open trouble code."},
	"incomplete_scan":        {"Scan incomplete", "Clearly fewer modules answered after than before: what was silent may hide a fault."},
	"late_pre_scan":          {"Scan before came late", "The scan before was made when calibration had begun."},
	"missing_scan":           {"Scan missing", "A calibrated job was closed without its scan before or after."},
	"stale_post_scan":        {"Scan after came too early", "Work went on after the last scan, so the scan does not show its result."},
	"out_of_tolerance":       {"Reading outside its tolerance", "A calibration was recorded as completed with a measured value outside its bounds."},
	"equal_corners":          {"Four equal ride heights", "Four corners are hardly ever equal to the millimetre: were they measured?"},
	"repeated_readings":      {"Same readings on two vehicles", "The four ride heights are those that were recorded on another vehicle shortly before."},
	"unit_suspect":           {"Wrong unit suspected", "The value fits its tolerance once read as inches, or with its decimal point moved."},
	"impossible_order":       {"Times in an impossible order", "Something is recorded as ending before it began, or outside the visit."},
	"overlapping_work":       {"Two vehicles at once", "One bay or one technician is on record with two vehicles at the same moment."},
	"uncured_glass":          {"Adhesive not ready", "The vehicle was driven or calibrated before the adhesive's drive-away time was over."},
	"equipment_overdue":      {"Equipment check overdue", "A stand or target was used with a check failed, overdue or never made."},
	"missing_road_test":      {"Road test missing", "A calibrated job was closed without a passed road test after it."},
	"missing_document":       {"Document missing", "A document that the requirements ask for is not on record."},
	"vin_problem":            {"Vehicle number problem", "The VIN is missing, malformed or has a wrong check digit: visits of this vehicle cannot be tied together."},
}

// kindName is a kind for a reader.
func kindName(kind string) string {
	if word, ok := kindWords[kind]; ok {
		return word.name
	}
	return sentence(plain(kind))
}

// classNames are the classes whose plain words would not be understood.
var classNames = map[string]string{
	"after_pass": "after a pass", "after_failure": "after a failure", "no_pre_scan": "no scan before to compare with",
	"outside_visit": "outside the visit", "before_glass": "before the glass was in", "pre": "before", "post": "after",
	"equipped": "known to have the system", "likely": "vehicles like it have it", "check_digit": "wrong check digit",
	"uncalibrated": "calibration had been left out", "tenfold": "decimal point", "inch": "inches",
	"linked": "named by the shop", "not_calibrated": "names a job without calibration",
}

// className is a class for a reader.
func className(class *string) string {
	if class == nil || *class == "" {
		return ""
	}
	if name, ok := classNames[*class]; ok {
		return name
	}
	return plain(*class)
}

// findingName is a finding's kind and class in one label.
func findingName(f quality.Finding) string {
	if class := className(f.Class); class != "" {
		return kindName(f.Kind) + ": " + class
	}
	return kindName(f.Kind)
}
