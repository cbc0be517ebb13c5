package draft

import (
	"regexp"
	"strings"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A target is a column of the layout that a draft looks for, with the names that the trade gives it.
// The names are common practice, no source: letters and digits only, in lower case.
type target struct {
	kind, field string
	names       []string
	form        *regexp.Regexp // what its values look like; nil: any text
}

var (
	notAlphanumeric = regexp.MustCompile(`[^a-z0-9]+`)
	looksYear       = regexp.MustCompile(`^(19[89]|20[0-4])\d(\.0)?$`)
	looksFile       = regexp.MustCompile(`(?i)\.(pdf|jpe?g|png|docx?|xlsx?|csv|txt|html?)\b`)
	looksNone       = regexp.MustCompile(`(?i)^(none|no (codes|faults|dtcs?)|ok|clear|n/?a|0|-+)$`)
	looksCount      = regexp.MustCompile(`^\d+ *(of|/) *\d+$`)
)

var targets = []target{
	{"jobs", "shop", []string{"shop", "store", "location", "site", "branch", "shopid", "shopname"}, nil},
	{"jobs", "job_no", []string{"ro", "rono", "ronumber", "repairorder", "repairorderno", "repairordernumber", "jobno", "job", "jobnumber", "workorder", "wo", "order", "orderno", "invoiceno", "ticket"}, nil},
	{"jobs", "vin", []string{"vin", "vinno", "vinnumber", "chassis", "chassisno"}, source.LooksVIN},
	{"jobs", "model_year", []string{"year", "yr", "my", "modelyear"}, looksYear},
	{"jobs", "make", []string{"make", "manufacturer", "vehiclemake"}, nil},
	{"jobs", "model", []string{"model", "vehiclemodel"}, nil},
	{"jobs", "make_model", []string{"makemodel", "vehicle", "car", "makeandmodel", "yearmakemodel", "vehicledescription"}, regexp.MustCompile(`^\S+ \S+`)},
	{"jobs", "odometer_km", []string{"odometer", "odo", "odokm", "odomi", "mileage", "miles", "km", "odometerkm", "odometermi", "odometermiles", "kilometers", "mileagein"}, source.LooksNumber},
	{"jobs", "opened_at", []string{"datein", "opened", "openedat", "in", "dateopened", "arrival", "arrived", "received", "checkin", "date"}, source.LooksDay},
	{"jobs", "closed_at", []string{"dateout", "closed", "closedat", "out", "dateclosed", "completed", "delivered", "checkout", "finished"}, source.LooksDay},
	{"jobs", "reason", []string{"reason", "jobtype", "work", "worktype", "service", "servicetype", "why", "type"}, nil},
	{"jobs", "complaint", []string{"complaint", "customersays", "concern", "customerconcern", "symptom"}, nil},
	{"jobs", "insurer", []string{"insurer", "insurance", "insco", "insurancecompany", "carrier"}, nil},
	{"jobs", "claim_no", []string{"claim", "claimno", "claimnumber"}, nil},
	{"jobs", "comeback_of", []string{"comebackof", "backfromro", "originalro", "priorro", "previousro", "returnof"}, nil},
	{"jobs", "technician", []string{"technician", "tech", "lead", "leadtech", "mechanic", "employee"}, nil},
	{"glass", "position", []string{"pane", "glassposition", "glass", "opening"}, nil},
	{"glass", "source", []string{"glasssource", "ws", "glasstype", "windshieldsource", "oemaftermarket", "glass", "windshield"}, nil},
	{"glass", "brand", []string{"glassbrand", "wsmaker", "windshieldbrand", "glassmaker"}, nil},
	{"glass", "part_no", []string{"partno", "glasspart", "wsno", "partnumber", "glasspartno"}, nil},
	{"glass", "supplier", []string{"supplier", "vendor", "glasssupplier"}, nil},
	{"glass", "bracket", []string{"bracket", "camerabracket"}, nil},
	{"glass", "installed_at", []string{"wsset", "installed", "installedat", "glassset", "settime"}, source.LooksDay},
	{"glass", "drive_away_min", []string{"sdat", "safedriveaway", "driveaway", "mdat", "driveawaymin"}, source.LooksNumber},
	{"glass", "installer", []string{"installer", "glasstech"}, nil},
	{"calibrations", "system", []string{"system", "systems", "systemscalibrated", "adascalibrated", "calibrated", "calibrations", "sensor"}, nil},
	{"calibrations", "method", []string{"method", "how", "caltype", "calibrationtype", "calibrationmethod"}, nil},
	{"calibrations", "started_at", []string{"calstart", "started", "startedat", "start", "calibrationstart", "begin", "caldate", "calibrationdate", "calibratedon"}, source.LooksDay},
	{"calibrations", "ended_at", []string{"calend", "ended", "endedat", "end", "calibrationend", "finish"}, source.LooksDay},
	{"calibrations", "outcome", []string{"result", "outcome", "calresult", "calibrationresult", "passfail"}, nil},
	{"calibrations", "failure_text", []string{"ngnote", "note", "failure", "failuretext", "failurereason", "resultnote"}, nil},
	{"calibrations", "failure_code", []string{"failurecode", "errorcode", "errcode"}, nil},
	{"calibrations", "bay", []string{"bay", "stall"}, nil},
	{"calibrations", "equipment", []string{"equipment", "frame", "stand", "rig"}, nil},
	{"calibrations", "target", []string{"board", "targetboard", "targetid"}, nil},
	{"calibrations", "software_version", []string{"sw", "software", "softwareversion", "version"}, nil},
	{"calibrations", "procedure", []string{"procedure", "makersprocedure"}, nil},
	{"calibrations", "technician", []string{"caltech", "calibrationtech", "calibratedby"}, nil},
	{"scans", "scanned_at", []string{"scan", "scandate", "scanat", "scantime", "scanned", "date"}, source.LooksDay},
	{"scans", "modules", []string{"modules", "modulesread"}, looksCount},
	{"scans", "modules_polled", []string{"modulespolled", "polled"}, source.LooksNumber},
	{"scans", "modules_responded", []string{"modulesresponded", "responded"}, source.LooksNumber},
	{"faults", "list", []string{"codes", "faults", "dtcs", "dtc", "scancodes", "troublecodes", "faultcodes", "scan"}, source.LooksCode},
	{"road_tests", "started_at", []string{"roadtest", "roadteststart", "testdrive", "rtstart"}, source.LooksDay},
	{"road_tests", "ended_at", []string{"rtend", "roadtestend"}, source.LooksDay},
	{"road_tests", "distance_km", []string{"rtmi", "rtkm", "roadtestmi", "roadtestkm", "testmiles"}, source.LooksNumber},
	{"road_tests", "outcome", []string{"rtok", "roadtestresult", "roadtestok"}, nil},
	{"documents", "file_name", []string{"files", "documents", "file", "attachments", "papers", "reports"}, looksFile},
}

// bareName is a header's letters and digits.
func bareName(name string) string { return notAlphanumeric.ReplaceAllString(strings.ToLower(name), "") }

// nameScore says how sure a header's letters and digits alone make us, from 0 to 1.
func (t target) nameScore(bare string) float64 {
	if bare == strings.ReplaceAll(t.field, "_", "") {
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

// valueScore says how well the values suit: 1 where any text will do. Words that nobody knows do not speak against a
// column as much as other forms do.
func (t target) valueScore(values []string) float64 {
	if column := layout.KindNamed(t.kind).Column(t.field); column != nil && column.Type == layout.Word && len(values) > 0 {
		if t.field == "system" {
			values = itemsOf(values, separatorOf(values))
		}
		return 0.6 + 0.4*share(values, func(value string) bool {
			return wordFor(*column, sideOf.ReplaceAllString(value, "")) != ""
		})
	}
	switch {
	case t.form == nil:
		return 1
	case len(values) == 0:
		return 0.85 // the name is all there is
	case t.kind == "faults" && share(values, looksNone.MatchString) == 1:
		return 0.85 // no fault so far
	case t.kind == "faults" && share(values, t.form.MatchString) > 0:
		return share(values, func(value string) bool { return source.LooksCode.MatchString(value) || looksNone.MatchString(value) })
	case t.field == "vin":
		return share(values, source.LooksVINSpaced)
	}
	return share(values, t.form.MatchString)
}
