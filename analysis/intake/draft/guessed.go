package draft

import (
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/intake/profile"
)

// This file makes records of the guesses, as far as they are sure.

func (d *drafting) guessRecords() {
	d.guessJobs()
	d.guessGlass()
	d.guessCalibrations()
	d.guessScans()
	for _, kind := range []string{"road_tests", "equipment_checks"} {
		needed := map[string]string{"road_tests": "started_at", "equipment_checks": "checked_at"}[kind]
		if d.found(kind, needed, "") != nil {
			d.addGuessed(kind, "")
		}
	}
	if files := d.found("documents", "file_name", ""); files != nil {
		r := d.addGuessed("documents", "")
		if r.field("kind") == nil {
			r.fields["kind"] = d.documentKind(files)
		}
	}
	d.guessMeasurements()
}

// addGuessed makes a record of what was found for a kind and place.
func (d *drafting) addGuessed(kind, place string) *record {
	r := newRecord(kind, 1+len(d.recordsOf(kind)), place)
	for _, column := range r.kind.Columns {
		if column.Name == "shop" || column.Name == "job_no" {
			continue
		}
		if g := d.found(kind, column.Name, place); g != nil {
			r.fields[column.Name] = d.column(g)
			if column.IsMoment() {
				d.joinClock(r.fields[column.Name])
			}
		}
	}
	d.records = append(d.records, r)
	return r
}

// joinClock joins the time of day that stands in the column right of a day's.
func (d *drafting) joinClock(p *planned) {
	at := p.pieces[0].Place + 1
	if at >= len(d.header) || len(d.values[at]) == 0 || share(d.values[at], looksTime.MatchString) < 0.9 ||
		share(d.values[at-1], func(value string) bool { return strings.Contains(value, ":") }) > 0.2 {
		return
	}
	p.origin += " + " + d.columnName(at)
	p.Field.Column, p.pieces = p.origin, append(p.pieces, profile.Piece{Place: at})
	p.why += "; the time of day stands beside it"
}

var looksTime = regexp.MustCompile(`(?i)^\d{1,2}[:.h]\d{2}(:\d{2})?( ?[ap]\.? ?m\.?| ?uhr| ?h)?$|^\d{1,2} ?[ap]m$`)

// guessJobs makes jobs where the file tells when they were opened, or why.
func (d *drafting) guessJobs() {
	if d.found("jobs", "opened_at", "") == nil && d.found("jobs", "reason", "") == nil || d.isLog() && d.found("jobs", "reason", "") == nil {
		return
	}
	r := d.addGuessed("jobs", "")
	g := d.found("jobs", "make_model", "")
	if g == nil {
		return
	}
	withYear := share(d.values[g.at], regexp.MustCompile(`^(19|20)\d\d \S`).MatchString) > 0.9
	first := 1
	if withYear {
		r.addUnless("model_year", d.part(g, 1, false, "the year leads it"))
		first = 2
	}
	r.addUnless("make", d.part(g, first, false, "the make leads it"))
	r.addUnless("model", d.part(g, first+1, true, "the model follows the make"))
}

func (r *record) addUnless(name string, p *planned) {
	if r.fields[name] == nil {
		r.fields[name] = p
	}
}

// isLog tells whether several rows speak of one job, so that a day of theirs is not the day in.
func (d *drafting) isLog() bool {
	job := d.found("jobs", "job_no", "")
	if job == nil || d.columns[job.at].isMany && d.rows > 3*mostDistinct {
		if job == nil {
			return false
		}
		return share(d.values[job.at], func(value string) bool { return d.columns[job.at].counts[value] > 1 }) > 0.3
	}
	c := d.columns[job.at]
	return float64(c.filled) > 1.3*float64(len(c.texts)) && c.filled > 3
}

func (d *drafting) guessGlass() {
	from := d.found("glass", "source", "")
	if from == nil {
		return
	}
	r := d.addGuessed("glass", "")
	name := plain(d.header[from.at])
	if r.field("position") == nil && regexp.MustCompile(`w/s|\bws\b|windsh|windscreen|parabrisas|pare-?brise|frontscheibe|windschutz`).MatchString(name) {
		r.fields["position"] = constant("windshield", "the column "+d.header[from.at]+" is about it")
	}
}

// guessCalibrations makes one of each group of columns of one system, the first attempts before the others, and one of the
// columns that are of none.
func (d *drafting) guessCalibrations() {
	var places []string
	for _, g := range d.taken {
		if g.kind == "calibrations" && g.score >= sure && !slices.Contains(places, g.place) && (d.found("calibrations", "outcome", g.place) != nil || d.found("calibrations", "started_at", g.place) != nil) {
			places = append(places, g.place)
		}
	}
	rank := func(place string) int {
		switch {
		case strings.HasPrefix(place, "first"):
			return 0
		case place != "":
			return 1
		}
		return 2
	}
	slices.SortStableFunc(places, func(a, b string) int { return rank(a) - rank(b) })
	for _, place := range places {
		if place == "" && d.found("calibrations", "outcome", "") == nil && d.found("calibrations", "system", "") == nil {
			continue
		}
		r := d.addGuessed("calibrations", place)
		if system := strings.TrimPrefix(place, "first "); system != "first" && system != "" {
			r.addUnless("system", constant(system, "the columns' name says so"))
		}
		d.splitFailure(r)
	}
}

var failureCode = regexp.MustCompile(`^[A-Z]{1,2}[0-9]{2,5}\b`)

// splitFailure takes the code that leads the text of a failure.
func (d *drafting) splitFailure(r *record) {
	p := r.field("failure_text")
	if p == nil || r.field("failure_code") != nil || len(p.pieces) != 1 || share(d.values[p.pieces[0].Place], failureCode.MatchString) <= 0.3 {
		return
	}
	code := *p
	code.Extract, code.why = `^([A-Z]{1,2}[0-9]{2,5})?`, "it leads the text"
	p.Extract = `^(?:[A-Z]{1,2}[0-9]{2,5} )?(.*)$`
	r.fields["failure_code"] = &code
}

// guessScans makes the scans before and after, or the one that a column's stage tells of, each with its faults.
func (d *drafting) guessScans() {
	for _, stage := range []string{"pre", "post", ""} {
		at, codes := d.found("scans", "scanned_at", stage), d.faultColumn(stage)
		if at == nil && codes == nil && (stage != "" || d.found("scans", "stage", "") == nil) {
			continue
		}
		if at != nil || stage != "" || d.found("scans", "stage", "") != nil {
			scan := d.addGuessed("scans", stage)
			if stage != "" {
				scan.addUnless("stage", constant(stage, "the columns' name says so"))
			}
			if g := d.found("scans", "modules", stage); g != nil {
				scan.addUnless("modules_responded", d.part(g, 1, false, "the number that answered leads it"))
				scan.addUnless("modules_polled", d.lastNumber(g))
			}
		}
		if codes == nil {
			continue
		}
		n := max(1, len(d.recordsOf("scans")))
		fault := d.addGuessed("faults", stage)
		fault.n = n
		fault.fields["code"] = d.column(codes)
	}
}

func (d *drafting) faultColumn(stage string) *guess {
	if g := d.found("faults", "code", stage); g != nil {
		return g
	}
	return d.found("faults", "list", stage)
}

func (d *drafting) lastNumber(g *guess) *planned {
	p := d.column(g)
	p.Extract, p.why = `([0-9]+)$`, "the number that was asked ends it"
	return p
}

// documentKind tells the kind of a document by its file's name.
func (d *drafting) documentKind(files *guess) *planned {
	p := d.column(files)
	p.Extract = `(?i)(pre-?_? ?scan|post-?_? ?scan|calib|road-?_? ?test|align|photo|procedure|certificate|invoice|jpe?g$|png$)`
	p.Otherwise = "other"
	p.Words = map[string]string{"pre-scan": "pre_scan_report", "prescan": "pre_scan_report", "pre_scan": "pre_scan_report", "pre scan": "pre_scan_report",
		"post-scan": "post_scan_report", "postscan": "post_scan_report", "post_scan": "post_scan_report", "post scan": "post_scan_report",
		"calib": "calibration_report", "road-test": "road_test_record", "roadtest": "road_test_record", "road_test": "road_test_record",
		"road test": "road_test_record", "align": "alignment_record", "photo": "photo", "procedure": "procedure", "certificate": "certificate",
		"invoice": "invoice", "jpg": "photo", "jpeg": "photo", "png": "photo"}
	p.why = "the name of the file tells it"
	return p
}

// guessMeasurements makes one of each column of a known quantity, one of each wheel of a cell of four, or one of a column
// that names the quantity beside its value.
func (d *drafting) guessMeasurements() {
	if d.found("measurements", "quantity", "") != nil && d.found("measurements", "value", "") != nil {
		d.addGuessed("measurements", "")
		return
	}
	for i := range d.taken {
		g := &d.taken[i]
		if g.kind != "measurements" || g.score < sure || slices.Contains([]string{"quantity", "value", "unit", "spec_low", "spec_high"}, g.field) {
			continue
		}
		if g.field != "tire_pressures" {
			d.addMeasured(g, g.field, d.column(g))
			continue
		}
		for wheel, corner := range []string{"lf", "rf", "lr", "rr"} {
			d.addMeasured(g, "tire_pressure_"+corner, d.part(g, wheel+1, false, "four wheels in a cell: left and right front, left and right rear"))
		}
	}
}

func (d *drafting) addMeasured(g *guess, quantity string, value *planned) {
	r := newRecord("measurements", 1+len(d.recordsOf("measurements")), quantity)
	r.fields["quantity"] = constant(quantity, "the column's name")
	r.fields["value"] = value
	if g.unit != "" {
		r.fields["unit"] = constant(g.unit, "the column's name or its values")
	}
	d.records = append(d.records, r)
}
