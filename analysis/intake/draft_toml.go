package intake

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// render writes the draft as a profile. A record is written where every column that it must have was found for sure;
// else it is commented out as a whole, and what it lacks is told.
func (d *Draft) render(s *sample) {
	var out strings.Builder
	base := filepath.Base(d.File)
	fmt.Fprintf(&out, "# Draft of a mapping profile for %s. Each line says how sure it is and shows values.\n", base)
	fmt.Fprintf(&out, "name = %s\n\n[source]\n", tomlText(strings.TrimSuffix(base, filepath.Ext(base))))
	if s.sheet != "" {
		fmt.Fprintf(&out, "sheet = %s\n", tomlText(s.sheet))
	}
	fmt.Fprintf(&out, "header_row = %d\n%s", d.HeaderRow, marksOf(s))
	if job := d.found("jobs", "job_no"); job != nil {
		fmt.Fprintf(&out, "skip = [{ column = %s, matches = '^\\s*$' }]   # rows without a job number\n", tomlText(job.Column))
	}
	for _, plan := range plans {
		d.renderRecord(&out, s, plan)
	}
	if len(d.Unmapped) > 0 {
		out.WriteString("\n# Not mapped:\n")
		for _, name := range d.Unmapped {
			fmt.Fprintf(&out, "#   %s   %s\n", tomlText(name), samplesOf(s.values[slices.Index(s.header, name)]))
		}
	}
	d.TOML = out.String()
}

// A plan is a record that a draft can make: which columns it looks for, and which are the same for all rows.
type plan struct {
	kind   string
	from   string            // the kind and field by which its own columns are found, where that is not the layout's
	main   string            // the layout's column that the record stands or falls with
	consts map[string]string // constants
}

var plans = []plan{
	{kind: "jobs"},
	{kind: "glass", consts: map[string]string{"position": "windshield"}},
	{kind: "calibrations", consts: map[string]string{}},
	{kind: "scans", from: "pre", main: "scanned_at", consts: map[string]string{"scan_no": "1", "stage": "pre"}},
	{kind: "scans", from: "post", main: "scanned_at", consts: map[string]string{"scan_no": "2", "stage": "post"}},
	{kind: "road_tests", consts: map[string]string{"test_no": "1"}},
}

// found is the file's column for a column of the layout.
func (d *Draft) found(kind, field string) *DraftColumn {
	for i := range d.Columns {
		if d.Columns[i].Kind == kind && d.Columns[i].Field == field {
			return &d.Columns[i]
		}
	}
	return nil
}

func (d *Draft) renderRecord(out *strings.Builder, s *sample, plan plan) {
	kind := KindNamed(plan.kind)
	var lines, lacking []string
	own := false
	for _, column := range kind.Columns {
		line, isOwn, ok := d.fieldLine(s, plan, column)
		own = own || isOwn
		if line != "" {
			lines = append(lines, line)
		}
		if column.Required && !ok {
			lacking = append(lacking, plan.kind+"."+column.Name)
		}
	}
	if !own {
		return
	}
	prefix := ""
	if len(lacking) > 0 {
		prefix = "# "
		d.Missing = append(d.Missing, lacking...)
		fmt.Fprintf(out, "\n# Needs a source before it can be used: %s\n", strings.Join(lacking, ", "))
	} else {
		out.WriteString("\n")
	}
	fmt.Fprintf(out, "%s[[record]]\n%skind = %q\n", prefix, prefix, plan.kind)
	if plan.from != "" {
		fmt.Fprintf(out, "%swhen = %s\n", prefix, tomlText(d.found(plan.kind, plan.from).Column))
	}
	if plan.kind == "calibrations" {
		if system := d.found("calibrations", "system"); system != nil {
			fmt.Fprintf(out, "%seach = { column = %s, separator = '[;,/]' }\n", prefix, tomlText(system.Column))
		}
	}
	fmt.Fprintf(out, "%s[record.fields]\n", prefix)
	for _, line := range lines {
		fmt.Fprintf(out, "%s%s\n", prefix, strings.ReplaceAll(line, "\n", "\n"+prefix))
	}
}

// fieldLine writes one column of a record. own tells that the file has a column for it alone, ok that it is mapped.
func (d *Draft) fieldLine(s *sample, plan plan, column Column) (line string, own, ok bool) {
	if constant, has := plan.consts[column.Name]; has {
		return fmt.Sprintf("%s = { constant = %s }", column.Name, tomlText(constant)), false, true
	}
	if plan.kind == "calibrations" && column.Name == "attempt_no" {
		return `attempt_no = { number = "order" }   # the file has no numbers: 1, 2, 3 … in its order`, false, true
	}
	kind, field := plan.kind, column.Name
	if column.Name == "shop" || column.Name == "job_no" {
		kind = "jobs"
	}
	if plan.from != "" && column.Name == plan.main {
		field = plan.from
	}
	found := d.found(kind, field)
	switch {
	case found == nil && column.Name == "shop":
		return `# shop = { constant = "the shop's name" }   # no column found`, false, false
	case found == nil && column.Required:
		return fmt.Sprintf("# %s = %s   # no column found", column.Name, tomlText("")), false, false
	case found == nil:
		return "", false, false
	}
	note := fmt.Sprintf("   # %.0f %% sure; %s", 100*found.Confidence, samplesOf(found.Samples))
	line = column.Name + " = " + fieldValue(s, plan, column, found) + note
	if found.Confidence < sure {
		return "# " + line, kind == plan.kind, false
	}
	return line, kind == plan.kind, true
}

// fieldValue is the column's name, or a table with what else is needed.
func fieldValue(s *sample, plan plan, column Column, found *DraftColumn) string {
	name := tomlText(found.Column)
	isItem := plan.kind == "calibrations" && column.Name == "system"
	parts := []string{"column = " + name}
	if isItem {
		parts = []string{"item = true"}
	}
	bare := bareName(found.Column)
	if (column.Name == "odometer_km" || column.Name == "distance_km") && (strings.Contains(bare, "mi")) {
		parts = append(parts, `unit = "mi"`)
	}
	if column.Type == Word {
		if words := wordsOf(column, s.values[slices.Index(s.header, found.Column)], isItem); words != "" {
			parts = append(parts, "words = { "+words+" }")
		}
	}
	if clock := clockBeside(s, column, found); clock != "" {
		parts = []string{"columns = [" + name + ", " + tomlText(clock) + "]"}
	}
	if len(parts) == 1 && !isItem && strings.HasPrefix(parts[0], "column = ") {
		return name
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

var looksClock = regexp.MustCompile(`^\d{1,2}:\d{2}`)

// clockBeside is the column right of a date's that holds its time of day.
func clockBeside(s *sample, column Column, found *DraftColumn) string {
	at := slices.Index(s.header, found.Column)
	if !column.isMoment() || at+1 >= len(s.header) || len(s.values[at+1]) == 0 {
		return ""
	}
	for _, value := range s.values[at+1] {
		if !looksClock.MatchString(value) {
			return ""
		}
	}
	return s.header[at+1]
}

var slashedDay = regexp.MustCompile(`^(\d{1,2})[/.-](\d{1,2})[/.-]\d{2,4}`)

// marksOf finds the order of dates and the marks in numbers; what the values leave open is commented out.
func marksOf(s *sample) string {
	slashed, dayFirst, monthFirst, commas := 0, 0, 0, 0
	for _, column := range s.values {
		for _, value := range column {
			if match := slashedDay.FindStringSubmatch(value); match != nil {
				one, _ := strconv.Atoi(match[1])
				other, _ := strconv.Atoi(match[2])
				slashed++
				if one > 12 {
					dayFirst++
				}
				if other > 12 {
					monthFirst++
				}
			} else if decimalComma.MatchString(value) {
				commas++
			}
		}
	}
	out := ""
	switch {
	case slashed > 0 && monthFirst > 0 && dayFirst == 0:
		out += "date_order = \"mdy\"\n"
	case slashed > 0 && dayFirst > 0 && monthFirst == 0:
		out += "date_order = \"dmy\"\n"
	case slashed > 0:
		out += "# date_order = \"mdy\"   # or \"dmy\": the dates do not tell\n"
	}
	if commas > 0 {
		out += "decimal = \",\"\nthousands = \".\"\n"
	}
	return out
}

var decimalComma = regexp.MustCompile(`^[+-]?\d{1,3}(\.\d{3})*,\d{1,2}$`)

func tomlText(text string) string { return strconv.Quote(text) }

func samplesOf(values []string) string {
	var shown []string
	for _, value := range values[:min(3, len(values))] {
		shown = append(shown, strconv.Quote(shortened(value)))
	}
	if len(shown) == 0 {
		return "no values"
	}
	return "such as " + strings.Join(shown, ", ")
}
