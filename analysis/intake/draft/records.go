package draft

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A drafted is a record of the draft: its lines, and what it lacks.
type drafted struct {
	kind     string
	settings []string // when, each
	lines    []string
	lacking  []string
	remark   string
}

// Records lists all records that the columns allow, in the layout's order.
func (d *drafting) records() []drafted {
	records := []drafted{d.plain("jobs", "", nil)}
	if d.has("glass", "") {
		glass := d.plain("glass", "", map[string]string{"position": "windshield"})
		if source := d.found("glass", "source", ""); source != nil {
			glass.settings = []string{"when = " + tomlText(d.header[source.at])}
		}
		records = append(records, glass)
	}
	records = append(records, d.calibrationRecords()...)
	for i, stage := range []string{"pre", "post"} {
		number := fmt.Sprint(i + 1)
		if at := d.found("scans", "scanned_at", stage); at != nil {
			scan := d.plain("scans", stage, map[string]string{"scan_no": number, "stage": stage})
			scan.settings = []string{"when = " + tomlText(d.header[at.at])}
			records = append(records, scan)
		}
		if codes := d.found("faults", "list", stage); codes != nil {
			records = append(records, d.faultRecord(codes, number))
		}
	}
	if d.has("road_tests", "") {
		records = append(records, d.plain("road_tests", "", map[string]string{"test_no": "1"}))
	}
	if files := d.found("documents", "file_name", ""); files != nil {
		records = append(records, d.documentRecord(files))
	}
	return append(records, d.measurementRecords()...)
}

func (d *drafting) has(kind, place string) bool {
	return slices.ContainsFunc(d.taken, func(g guess) bool { return g.kind == kind && g.place == place })
}

// plain is a record that has each column of the layout from a column of the file, or as a constant.
func (d *drafting) plain(kind, place string, constants map[string]string) drafted {
	record := drafted{kind: kind}
	for _, column := range layout.KindNamed(kind).Columns {
		if column.Name == "shop" || column.Name == "job_no" {
			continue
		}
		g := d.found(kind, column.Name, place)
		constant, has := constants[column.Name]
		switch {
		case g != nil && g.score >= sure:
			record.lines = append(record.lines, d.fieldLines(column, g)...)
		case has && constant == "order":
			record.lines = append(record.lines, column.Name+` = { number = "order" }   # the file has no numbers: 1, 2, 3 … in its order`)
		case has:
			record.lines = append(record.lines, fmt.Sprintf("%s = { constant = %s }", column.Name, tomlText(constant)))
		case d.split(&record, column, kind, place):
		case g != nil:
			record.lines = append(record.lines, "# "+strings.Join(d.fieldLines(column, g), "\n# ")+candidates(d.others[g.at]))
			record.lack(column)
		case column.Name == "technician" && d.found("jobs", "technician", "") != nil:
			lead := tomlText(d.header[d.found("jobs", "technician", "").at])
			record.lines = append(record.lines, fmt.Sprintf("# technician = %s   # if who led the job did this too", lead))
		case column.Required:
			record.lines = append(record.lines, d.askFor(column))
			record.lack(column)
		}
	}
	return record
}

func (r *drafted) lack(column layout.Column) {
	if column.Required {
		r.lacking = append(r.lacking, r.kind+"."+column.Name)
	}
}

// askFor is the line of a required column that nothing was found for, with the columns that it might come from.
func (d *drafting) askFor(column layout.Column) string {
	var might []string
	for i, guesses := range d.others {
		if slices.ContainsFunc(guesses, func(g guess) bool { return g.field == column.Name }) {
			might = append(might, tomlText(d.header[i]))
		}
	}
	if column.IsMoment() {
		for _, g := range d.taken {
			if from := layout.KindNamed(g.kind).Column(g.field); from != nil && from.IsMoment() {
				might = append(might, tomlText(d.header[g.at]))
			}
		}
	}
	slices.Sort(might)
	if might = slices.Compact(might); len(might) > 0 {
		return fmt.Sprintf("# %s = %s   # no column found for sure; candidates: %s", column.Name, might[0], strings.Join(might, ", "))
	}
	if column.Type == layout.Word {
		return fmt.Sprintf("# %s = { constant = %s }   # no column found; or one of %s", column.Name, tomlText(column.Words[len(column.Words)-1]), strings.Join(column.Words, ", "))
	}
	return fmt.Sprintf("# %s = \"\"   # no column found", column.Name)
}

func (d *drafting) renderRecord(out *strings.Builder, record drafted) {
	prefix := ""
	out.WriteString("\n")
	if record.remark != "" {
		fmt.Fprintf(out, "# %s\n", record.remark)
	}
	if len(record.lacking) > 0 {
		prefix = "# "
		d.Missing = append(d.Missing, record.lacking...)
		fmt.Fprintf(out, "# Needs a source before it can be used: %s\n", strings.Join(record.lacking, ", "))
	}
	lines := append([]string{"[[record]]", "kind = " + tomlText(record.kind)}, record.settings...)
	for _, line := range append(append(lines, "[record.fields]"), record.lines...) {
		fmt.Fprintf(out, "%s%s\n", prefix, strings.ReplaceAll(line, "\n", "\n"+prefix))
	}
}

// fieldLines is the line of a column that was found, with what its values need.
func (d *drafting) fieldLines(column layout.Column, g *guess) []string {
	name := tomlText(d.header[g.at])
	parts := []string{"column = " + name}
	note := d.note(g)
	if column.IsMoment() {
		if clock := d.clockBeside(g.at); clock != "" {
			parts = []string{"columns = [" + name + ", " + tomlText(clock) + "]"}
		}
	}
	if column.Name == "odometer_km" || column.Name == "distance_km" {
		unit, known := lengthUnit(d.header[g.at])
		if unit != "" {
			parts = append(parts, "unit = "+tomlText(unit))
		}
		if !known {
			note += `; no unit is named and kilometers are taken: add unit = "mi" if it is miles`
			d.Notices = append(d.Notices, fmt.Sprintf("the column %q names no unit; kilometers are taken", d.header[g.at]))
		}
	}
	if column.Type == layout.Word {
		pairs, unknown := wordsOf(column, d.values[g.at])
		if len(pairs) > 0 {
			parts = append(parts, "words = { "+strings.Join(pairs, ", ")+" }")
		}
		note += unknownWords(unknown)
	}
	if column.Name == "failure_text" && share(d.values[g.at], failureCode.MatchString) > 0.3 {
		parts = append(parts, `extract = '^(?:[A-Z]{1,2}[0-9]{2,5} )?(.*)$'`)
		code := fmt.Sprintf("failure_code = { column = %s, extract = '^([A-Z]{1,2}[0-9]{2,5})?' }", name)
		return []string{code, column.Name + " = { " + strings.Join(parts, ", ") + " }" + note}
	}
	if len(parts) == 1 && strings.HasPrefix(parts[0], "column = ") {
		return []string{column.Name + " = " + name + note}
	}
	return []string{column.Name + " = { " + strings.Join(parts, ", ") + " }" + note}
}

func unknownWords(unknown []string) string {
	if len(unknown) == 0 {
		return ""
	}
	return "; words that nobody told the meaning of, and whose rows will be set aside: " + samplesOf(unknown)[len("such as "):]
}

// lengthUnit is the unit that a header names, empty for kilometers, and whether it names one.
func lengthUnit(header string) (string, bool) {
	tokens := tokensOf(header)
	switch {
	case slices.ContainsFunc(tokens, in([]string{"mi", "mile", "miles", "mileage"})):
		return "mi", true
	case slices.ContainsFunc(tokens, in([]string{"km", "kms", "kilometers", "kilometres"})):
		return "", true
	}
	return "", false
}

// clockBeside is the column right of a date's that holds its time of day.
func (d *drafting) clockBeside(at int) string {
	at++
	if at >= len(d.header) || len(d.values[at]) == 0 || share(d.values[at], source.LooksClock.MatchString) < 1 {
		return ""
	}
	d.used[at] = true
	return d.header[at]
}
