package draft

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// This file drafts the measurements: a record for each column, or for each wheel in a cell of four.

// wholeJob are the quantities that belong to a job as a whole; the others belong to a calibration.
var wholeJob = []string{"battery_voltage", "fuel_level", "extra_load"}

func (d *drafting) measurementRecords() []drafted {
	var records []drafted
	for i := range d.taken {
		g := &d.taken[i]
		switch {
		case g.kind != "measurements":
		case g.field == "tire_pressures":
			lead := `^ *`
			for _, corner := range []string{"lf", "rf", "lr", "rr"} {
				records = append(records, d.measurementRecord(g, "tire_pressure_"+corner, lead+`([0-9.,]+)`))
				lead += `[0-9.,]+[ /;-]+`
			}
		default:
			expression := ""
			if share(d.values[g.at], source.LooksNumber.MatchString) < 1 {
				expression = `^([0-9.,+-]+)`
			}
			records = append(records, d.measurementRecord(g, g.field, expression))
		}
	}
	return records
}

func (d *drafting) measurementRecord(g *guess, quantity, expression string) drafted {
	name := tomlText(d.header[g.at])
	record := drafted{kind: "measurements", settings: []string{"when = " + name}}
	if !slices.Contains(wholeJob, quantity) && !strings.HasPrefix(quantity, "tire_pressure") {
		record.lines, record.remark = d.attemptLines()
	}
	value := name
	if expression != "" {
		value = fmt.Sprintf("{ column = %s, extract = '%s' }", name, expression)
	}
	record.lines = append(record.lines, fmt.Sprintf("quantity = { constant = %q }", quantity), "value = "+value+d.note(g))
	if g.unit == "" {
		record.lines = append(record.lines, `# unit = { constant = "mm" }   # neither the header nor the values tell the unit`)
		record.lacking = []string{"measurements.unit"}
	} else {
		record.lines = append(record.lines, fmt.Sprintf("unit = { constant = %q }", g.unit))
	}
	if g.score < sure {
		record.lacking = append(record.lacking, "measurements.quantity")
	}
	return record
}

// attemptLines say which attempt the measurements of a row belong to: the last one on the front camera where the file
// has such attempts, for its set-up is what is measured; else the job as a whole.
func (d *drafting) attemptLines() ([]string, string) {
	const remark = "Taken to be of the front camera's last attempt; without system and attempt_no it is of the whole job."
	if first := d.found("calibrations", "started_at", "first front_camera"); first != nil {
		return []string{`system = { constant = "front_camera" }`,
			fmt.Sprintf(`attempt_no = { column = %s, words = { "" = "1" }, otherwise = "2" }`, tomlText(d.header[first.at]))}, remark
	}
	systems := d.found("calibrations", "system", "")
	listed := systems != nil && systems.score >= sure && share(itemsOf(d.values[systems.at], separatorOf(d.values[systems.at])), func(item string) bool {
		return wordFor(*layout.KindNamed("calibrations").Column("system"), sideOf.ReplaceAllString(item, "")) == "front_camera"
	}) > 0
	if listed || d.has("calibrations", "front_camera") {
		return []string{`system = { constant = "front_camera" }`, `attempt_no = { constant = "1" }`}, remark
	}
	return nil, "The file does not tell which calibration this belongs to: it is taken of the whole job."
}
