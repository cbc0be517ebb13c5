package profile

import (
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"plumbline/analysis/intake/source"
)

// settingLines gives the line of each setting of a TOML text by its path: source.zone, record.2.fields.vin, where 2 is
// the third record.
func settingLines(text []byte) map[string]int {
	lines, records := map[string]int{}, -1
	parser := unstable.Parser{}
	parser.Reset(text)
	table := ""
	for parser.NextExpression() {
		expression := parser.Expression()
		var names []string
		line := 0
		for keys := expression.Key(); keys.Next(); {
			names = append(names, string(keys.Node().Data))
			line = parser.Shape(keys.Node().Raw).Start.Line
		}
		path := strings.Join(names, ".")
		switch expression.Kind {
		case unstable.ArrayTable, unstable.Table:
			if expression.Kind == unstable.ArrayTable && path == "record" {
				records++
			}
			if names[0] == "record" {
				names[0] = "record." + strconv.Itoa(records)
			}
			table = strings.Join(names, ".")
			path = table
		case unstable.KeyValue:
			if table != "" {
				path = table + "." + path
			}
		}
		if _, known := lines[path]; !known {
			lines[path] = line
		}
	}
	return lines
}

// Refuse names the line of the setting, or of the nearest around it that is written down.
func (p *Profile) Refuse(setting, reason string) error {
	fault := source.Fault{File: p.file, Reason: reason, Remedy: "mend this line of the profile"}
	if _, name, ok := strings.Cut(setting, ".fields."); ok && p.lines[setting] == 0 {
		fault.Line = int64(p.lines["shared."+name])
	}
	for fault.Line == 0 && setting != "" {
		fault.Line = int64(p.lines[setting])
		setting = setting[:max(0, strings.LastIndexByte(setting, '.'))]
	}
	if fault.Line == 0 {
		fault.Remedy = "mend the profile"
	}
	return &source.Refusal{Fault: fault}
}

// setting is the path of a setting of the record.
func (r RecordMapping) setting(name string) string {
	return "record." + strconv.Itoa(r.place) + "." + name
}
