package draft

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// This file drafts the records that come from lists in cells and from columns of one thing each.

var failureCode = regexp.MustCompile(`^[A-Z]{1,2}[0-9]{2,5}\b`)

// split finds a column in a cell that holds more than it: make and model, modules read of modules asked. It says
// whether it did.
func (d *drafting) split(record *drafted, column layout.Column, kind, place string) bool {
	var g *guess
	expression := ""
	switch column.Name {
	case "make", "model", "model_year":
		if g = d.found(kind, "make_model", place); g == nil {
			return false
		}
		withYear := share(d.values[g.at], regexp.MustCompile(`^(19|20)\d\d \S`).MatchString) > 0.9
		expression = map[string]string{"make": `^(\S+)`, "model": `^\S+ (.*)$`}[column.Name]
		if withYear {
			expression = map[string]string{"make": `^\d{4} (\S+)`, "model": `^\d{4} \S+ (.*)$`, "model_year": `^(\d{4})`}[column.Name]
		}
	case "modules_polled", "modules_responded":
		g = d.found(kind, "modules", place)
		expression = map[string]string{"modules_polled": `([0-9]+)$`, "modules_responded": `^([0-9]+)`}[column.Name]
	}
	if g == nil || expression == "" || g.score < sure {
		return false
	}
	record.lines = append(record.lines, fmt.Sprintf("%s = { column = %s, extract = '%s' }%s", column.Name, tomlText(d.header[g.at]), expression, d.note(g)))
	return true
}

// calibrationRecords are the first attempts with columns of their own, the systems with columns of their own, and the
// list of systems. Their numbers follow the order of these records within a row.
func (d *drafting) calibrationRecords() []drafted {
	var records []drafted
	var places []string
	for _, g := range d.taken {
		if g.kind == "calibrations" && g.place != "" && !slices.Contains(places, g.place) {
			places = append(places, g.place)
		}
	}
	slices.SortStableFunc(places, func(a, b string) int {
		return btoi(strings.HasPrefix(b, "first")) - btoi(strings.HasPrefix(a, "first"))
	})
	for _, place := range places {
		constants := map[string]string{"attempt_no": "order"}
		if system := strings.TrimPrefix(place, "first "); system != "first" {
			constants["system"] = system
		}
		record := d.plain("calibrations", place, constants)
		for _, field := range []string{"outcome", "started_at"} {
			if g := d.found("calibrations", field, place); g != nil {
				record.settings = []string{"when = " + tomlText(d.header[g.at])}
			}
		}
		records = append(records, record)
	}
	if d.has("calibrations", "") {
		records = append(records, d.listedCalibrations())
	}
	return records
}

// listedCalibrations makes one of each system that a cell lists.
func (d *drafting) listedCalibrations() drafted {
	systems := d.found("calibrations", "system", "")
	record := d.plain("calibrations", "", map[string]string{"attempt_no": "order"})
	if systems == nil || systems.score < sure {
		return record
	}
	separator := separatorOf(d.values[systems.at])
	record.settings = []string{fmt.Sprintf("each = { column = %s, separator_matches = %s, except = %s }", tomlText(d.header[systems.at]), tomlText(separator), tomlText(looksNone.String()))}
	items := itemsOf(d.values[systems.at], separator)
	var names []string
	for _, item := range items {
		names = append(names, sideOf.ReplaceAllString(item, ""))
	}
	pairs, unknown := wordsOf(*layout.KindNamed("calibrations").Column("system"), names)
	unknown = slices.DeleteFunc(unknown, looksNone.MatchString)
	parts := []string{"item = true"}
	if share(items, sideOf.MatchString) > 0 {
		parts = append(parts, `extract = '(?i)^(.*?)(?:[ ,]+(?:L|R|LH|RH|left|right))?$'`)
		record.lines = append(record.lines, `position = { item = true, extract = '(?i)(?:[ ,]+(L|R|LH|RH|left|right))?$', words = { "L" = "left", "LH" = "left", "R" = "right", "RH" = "right" } }`)
	}
	if len(pairs) > 0 {
		parts = append(parts, "words = { "+strings.Join(pairs, ", ")+" }")
	}
	for i, line := range record.lines {
		if strings.HasPrefix(line, "system = ") {
			record.lines[i] = "system = { " + strings.Join(parts, ", ") + " }" + d.note(systems) + unknownWords(unknown)
		}
	}
	return record
}

// faultRecord makes a fault of each item of a list of codes, such as "module: code (status)".
func (d *drafting) faultRecord(codes *guess, scan string) drafted {
	values := d.values[codes.at]
	separator := separatorOf(slices.DeleteFunc(slices.Clone(values), func(value string) bool { return !source.LooksCode.MatchString(value) }))
	items := itemsOf(values, separator)
	var others []string
	for _, item := range distinct(items) {
		if !source.LooksCode.MatchString(item) && !strings.Contains(item, ":") && len(item) < 20 {
			others = append(others, regexp.QuoteMeta(item))
		}
	}
	record := drafted{kind: "faults", settings: []string{fmt.Sprintf("each = { column = %s, separator_matches = %s }", tomlText(d.header[codes.at]), tomlText(separator))}}
	if len(others) > 0 {
		record.settings[0] = strings.TrimSuffix(record.settings[0], " }") + fmt.Sprintf(", except = %s }", tomlText("(?i)^("+strings.Join(others, "|")+")$"))
	}
	record.lines = []string{fmt.Sprintf("scan_no = { constant = %q }", scan)}
	withCode := slices.DeleteFunc(items, func(item string) bool { return !source.LooksCode.MatchString(item) })
	if share(withCode, regexp.MustCompile(`^[^:]+: *\S`).MatchString) > 0.9 {
		record.lines = append(record.lines, `module = { item = true, extract = '^(.*?): ' }`, `code = { item = true, extract = ': *(\S+)' }`+d.note(codes))
	} else {
		record.lines = append(record.lines, `module = { constant = "not named" }   # the list names no modules`,
			`code = { item = true, extract = '(?i)\b([PCBU][0-3][0-9A-F]{3}(?:[-: ]?[0-9A-F]{2})?)\b' }`+d.note(codes))
	}
	if share(withCode, regexp.MustCompile(`(?i)\((active|pending|stored|unknown|current|history|confirmed|present)\)`).MatchString) > 0.9 {
		record.lines = append(record.lines, `status = { item = true, extract = '\((\w+)\)', words = { "current" = "active", "present" = "active", "history" = "stored", "confirmed" = "stored" } }`)
	} else {
		record.lines = append(record.lines, `status = { constant = "unknown" }   # the list does not say`)
	}
	if codes.score < sure {
		record.lacking = []string{"faults.code"}
	}
	return record
}

// documentRecord makes a document of each file that a cell lists; its name tells the kind.
func (d *drafting) documentRecord(files *guess) drafted {
	record := drafted{kind: "documents", settings: []string{fmt.Sprintf("each = { column = %s, separator_matches = %s }",
		tomlText(d.header[files.at]), tomlText(separatorOf(d.values[files.at])))}}
	record.lines = []string{"file_name = { item = true }" + d.note(files),
		`kind = { item = true, extract = '(?i)(pre-?_?scan|post-?_?scan|calib|road-?_?test|align|photo|procedure|certificate|invoice|jpe?g$|png$)', otherwise = "other", words = { ` +
			`"pre-scan" = "pre_scan_report", "prescan" = "pre_scan_report", "pre_scan" = "pre_scan_report", "post-scan" = "post_scan_report", ` +
			`"postscan" = "post_scan_report", "post_scan" = "post_scan_report", "calib" = "calibration_report", "road-test" = "road_test_record", ` +
			`"roadtest" = "road_test_record", "road_test" = "road_test_record", "align" = "alignment_record", "photo" = "photo", "procedure" = "procedure", ` +
			`"certificate" = "certificate", "invoice" = "invoice", "jpg" = "photo", "jpeg" = "photo", "png" = "photo" } }`}
	if files.score < sure {
		record.lacking = []string{"documents.file_name"}
	}
	return record
}
