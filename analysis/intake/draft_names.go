package intake

import (
	"regexp"
	"strings"
)

// A target is a column of the layout that a draft looks for, with the names that the trade gives it.
// The names are common practice, no source: letters and digits only, in lower case.
type target struct {
	kind, field string
	names       []string
}

var targets = []target{
	{"jobs", "shop", []string{"shop", "store", "location", "site", "branch", "shopid"}},
	{"jobs", "job_no", []string{"ro", "rono", "ronumber", "repairorder", "repairorderno", "repairordernumber", "jobno", "job", "jobnumber", "workorder", "wo", "order", "orderno", "invoiceno", "ticket"}},
	{"jobs", "vin", []string{"vin", "vinno", "vinnumber", "chassis", "chassisno"}},
	{"jobs", "model_year", []string{"year", "yr", "my", "modelyear"}},
	{"jobs", "make", []string{"make", "manufacturer", "vehiclemake"}},
	{"jobs", "model", []string{"model", "vehiclemodel"}},
	{"jobs", "odometer_km", []string{"odometer", "odo", "odokm", "odomi", "mileage", "miles", "km", "odometerkm", "odometermi", "kilometers", "mileagein"}},
	{"jobs", "opened_at", []string{"datein", "opened", "openedat", "in", "dateopened", "arrival", "arrived", "received", "checkin", "date"}},
	{"jobs", "closed_at", []string{"dateout", "closed", "closedat", "out", "dateclosed", "completed", "delivered", "checkout", "finished"}},
	{"jobs", "reason", []string{"reason", "jobtype", "work", "worktype", "service", "servicetype", "why", "type"}},
	{"jobs", "complaint", []string{"complaint", "customersays", "concern", "customerconcern", "symptom"}},
	{"jobs", "insurer", []string{"insurer", "insurance", "insco", "insurancecompany", "carrier"}},
	{"jobs", "claim_no", []string{"claim", "claimno", "claimnumber"}},
	{"jobs", "comeback_of", []string{"comebackof", "backfromro", "originalro", "priorro", "previousro", "returnof"}},
	{"jobs", "technician", []string{"technician", "tech", "lead", "leadtech", "mechanic", "employee"}},
	{"glass", "source", []string{"glasssource", "ws", "glasstype", "windshieldsource", "oemaftermarket"}},
	{"glass", "brand", []string{"glassbrand", "wsmaker", "windshieldbrand", "glassmaker"}},
	{"glass", "part_no", []string{"partno", "glasspart", "wsno", "partnumber", "glasspartno"}},
	{"glass", "supplier", []string{"supplier", "vendor", "glasssupplier"}},
	{"glass", "installed_at", []string{"wsset", "installed", "installedat", "glassset", "settime"}},
	{"glass", "drive_away_min", []string{"sdat", "safedriveaway", "driveaway", "mdat", "driveawaymin"}},
	{"calibrations", "system", []string{"system", "systems", "systemscalibrated", "calibrated", "sensor"}},
	{"calibrations", "method", []string{"method", "how", "caltype", "calibrationtype", "calibrationmethod"}},
	{"calibrations", "started_at", []string{"calstart", "started", "startedat", "start", "calibrationstart", "begin"}},
	{"calibrations", "ended_at", []string{"calend", "ended", "endedat", "end", "calibrationend", "finish"}},
	{"calibrations", "outcome", []string{"result", "outcome", "calresult", "calibrationresult", "passfail"}},
	{"calibrations", "failure_text", []string{"ngnote", "failure", "failuretext", "failurereason", "resultnote"}},
	{"calibrations", "bay", []string{"bay", "stall"}},
	{"calibrations", "equipment", []string{"equipment", "frame", "stand", "rig"}},
	{"calibrations", "target", []string{"target", "board", "targetboard"}},
	{"calibrations", "software_version", []string{"sw", "software", "softwareversion", "version"}},
	{"calibrations", "procedure", []string{"procedure", "oemprocedure"}},
	{"scans", "pre", []string{"prescan", "prescandate", "scanbefore", "prescanat"}},
	{"scans", "post", []string{"postscan", "postscandate", "scanafter", "postscanat"}},
	{"faults", "pre", []string{"precodes", "prefaults", "predtcs", "prescancodes", "codesbefore"}},
	{"faults", "post", []string{"postcodes", "postfaults", "postdtcs", "postscancodes", "codesafter"}},
	{"road_tests", "started_at", []string{"roadtest", "roadteststart", "testdrive", "rtstart"}},
	{"road_tests", "ended_at", []string{"rtend", "roadtestend"}},
	{"road_tests", "distance_km", []string{"rtmi", "rtkm", "roadtestmi", "roadtestkm", "testmiles"}},
	{"road_tests", "outcome", []string{"rtok", "roadtestresult", "roadtestok"}},
	{"measurements", "target_distance", []string{"targetmm", "targetdistance", "distance", "targetdist"}},
	{"measurements", "ride_height_lf", []string{"lf", "lfin", "lfmm", "rideheightlf", "heightlf"}},
	{"measurements", "ride_height_rf", []string{"rf", "rfin", "rfmm", "rideheightrf", "heightrf"}},
	{"measurements", "ride_height_lr", []string{"lr", "lrin", "lrmm", "rideheightlr", "heightlr"}},
	{"measurements", "ride_height_rr", []string{"rr", "rrin", "rrmm", "rideheightrr", "heightrr"}},
}

// tradeWords are the trade's short names for words of the layout. Common practice, no source.
var tradeWords = map[string]map[string]string{
	"reason": {"w/s r&r": "windshield_replacement", "windshield": "windshield_replacement", "glass": "windshield_replacement",
		"body": "collision_repair", "collision": "collision_repair", "align": "wheel_alignment", "alignment": "wheel_alignment",
		"suspension": "suspension_work", "sensor": "sensor_replaced", "software": "software_update", "warning": "warning_light",
		"complaint": "customer_complaint", "re-check": "recheck", "cal only": "calibration_only", "misc": "other"},
	"source":  {"a/m": "aftermarket", "used": "recycled", "?": "unknown"},
	"outcome": {"ok": "completed", "pass": "completed", "passed": "completed", "fail": "failed", "ng": "failed", "stopped": "aborted", "y": "passed", "n": "failed", "yes": "passed", "no": "failed"},
	"method":  {"board": "static", "drive": "dynamic", "board + drive": "static_dynamic", "both": "static_dynamic"},
	"system":  {"camera": "front_camera", "radar": "front_radar", "sas": "steering_angle", "360 camera": "surround_camera", "backup camera": "rear_camera", "rear radar": "rear_corner_radar"},
}

var (
	notAlphanumeric = regexp.MustCompile(`[^a-z0-9]+`)
	looksVIN        = regexp.MustCompile(`(?i)^[A-HJ-NPR-Z0-9]{17}$`)
	looksCode       = regexp.MustCompile(`(?i)\b[PCBU][0-3][0-9A-F]{3}\b`)
	looksDate       = regexp.MustCompile(`^(\d{4}-\d{1,2}-\d{1,2}|\d{1,2}[/.-]\d{1,2}[/.-](\d{4}|\d{2}))([ T].*)?$`)
	looksNumber     = regexp.MustCompile(`^[+-]?[\d.,]+$`)
)

// bareName is a header's letters and digits.
func bareName(name string) string { return notAlphanumeric.ReplaceAllString(strings.ToLower(name), "") }

// nameScore says how sure a header's name alone makes us, from 0 to 1.
func (t target) nameScore(header string) float64 {
	bare := bareName(header)
	if bare == strings.ReplaceAll(t.field, "_", "") && t.kind != "scans" && t.kind != "faults" {
		return 0.95
	}
	for i, name := range t.names {
		if bare == name {
			return 0.9 - 0.01*float64(i)
		}
	}
	for _, name := range t.names {
		if len(name) > 3 && strings.Contains(bare, name) {
			return 0.6
		}
	}
	return 0
}

// valueScore says which share of the values looks like the target's: 1 where any text will do.
func (t target) valueScore(values []string) float64 {
	form := map[string]*regexp.Regexp{"vin": looksVIN, "opened_at": looksDate, "closed_at": looksDate, "installed_at": looksDate,
		"started_at": looksDate, "ended_at": looksDate, "odometer_km": looksNumber, "model_year": looksNumber,
		"drive_away_min": looksNumber, "distance_km": looksNumber}[t.field]
	switch {
	case t.kind == "scans":
		form = looksDate
	case t.kind == "faults":
		form = looksCode
	case t.kind == "measurements":
		form = looksNumber
	}
	if form == nil {
		return 1
	}
	if len(values) == 0 {
		return 0.5
	}
	fitting := 0
	for _, value := range values {
		if t.field == "vin" {
			value = strings.NewReplacer(" ", "", "-", "").Replace(value)
		}
		if form.MatchString(strings.TrimSpace(value)) {
			fitting++
		}
	}
	return float64(fitting) / float64(len(values))
}
