package draft

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// unitNames are the ways to write the units.
var unitNames = map[string]string{"mm": "mm", "cm": "cm", "m": "m", "in": "in", "inch": "in", "inches": "in", "ft": "ft", "kpa": "kPa",
	"bar": "bar", "psi": "psi", "deg": "deg", "degrees": "deg", "mrad": "mrad", "lux": "lux", "lx": "lux", "fc": "fc", "v": "V",
	"volt": "V", "volts": "V", "pct": "pct", "percent": "pct", "kg": "kg", "lb": "lb", "lbs": "lb"}

// fittingUnits are the units that a quantity may have, the likeliest range of values beside each. Common practice, no
// source: how high a vehicle stands, what its tires hold.
var fittingUnits = map[string]map[string][2]float64{
	"ride_height":     {"mm": {250, 1100}, "cm": {}, "in": {10, 44}},
	"tire_pressure":   {"kPa": {130, 450}, "bar": {1.3, 4.5}, "psi": {20, 65}},
	"target_distance": {"mm": {500, 9999}, "m": {0.5, 9.999}, "in": {20, 400}}, "target_offset": {"mm": {}, "in": {}, "cm": {}},
	"target_height": {"mm": {}, "in": {}, "cm": {}}, "target_level": {"deg": {}, "mm_per_m": {}}, "floor_slope": {"deg": {}, "pct": {}},
	"ambient_light": {"lux": {}, "fc": {}}, "battery_voltage": {"V": {8, 16}}, "fuel_level": {"pct": {0, 100}},
	"thrust_angle": {"deg": {-10, 10}, "mrad": {}}, "pitch": {"deg": {-10, 10}, "mrad": {}}, "yaw": {"deg": {-10, 10}, "mrad": {}},
	"roll": {"deg": {-10, 10}, "mrad": {}}, "extra_load": {"kg": {}, "lb": {}},
}

var (
	numberInUnit = regexp.MustCompile(`^([+-]?[\d.,]+)\s*([A-Za-z°%]*)$`)
	fourNumbers  = regexp.MustCompile(`^[\d.,]+( ?[/;-] ?[\d.,]+){3}$`)
)

// measurementGuess takes a column of numbers for a quantity by its name, its unit and the size of its values.
func (d *drafting) measurementGuess(i int) []guess {
	rest, unit := d.nameAndUnit(i)
	values := d.values[i]
	isNumber := share(values, func(value string) bool { return numberInUnit.MatchString(value) })
	if guesses := wheelGuess(i, rest, unit, values, isNumber); guesses != nil {
		return guesses
	}
	for _, quantity := range slices.Sorted(maps.Keys(spoken.Quantities)) {
		switch {
		case !slices.Contains(spoken.Quantities[quantity], rest):
		case quantity == "tire_pressures":
			if found := unitFor("tire_pressure", unit, firstNumbers(values)); found != "" {
				return []guess{{i, "measurements", quantity, "", found, 0.9 * share(values, fourNumbers.MatchString)}}
			}
		default:
			found := unitFor(quantity, unit, values)
			if found != "" && (rest != "" || len(d.names[i]) > 1) {
				return []guess{{i, "measurements", quantity, "", found, 0.9 * isNumber}}
			}
			if rest != "" && isNumber > 0.8 {
				return []guess{{i, "measurements", quantity, "", "", 0.5}}
			}
		}
	}
	if isMillimetres(values) { // whatever its name: four digits are a distance, if an unsure one
		return []guess{{i, "measurements", "target_distance", "", "mm", 0.45}}
	}
	return nil
}

// wheelGuess knows what is measured at a wheel: how high it stands, or what its tire holds. Values that could be either,
// below a name that says neither, are left to ask.
func wheelGuess(i int, rest, unit string, values []string, isNumber float64) []guess {
	names := map[string][]string{"ride_height": {"", "rideheight", "height", "ride", "hauteur", "altura", "hohe"},
		"tire_pressure": {"", "tire", "tirepressure", "pressure", "tyre", "tyrepressure", "pression", "presion", "druck", "reifendruck", "reifen", "pneu"}}
	for wheel, corner := range spoken.Wheels {
		if !strings.Contains(rest, wheel) {
			continue
		}
		var fitting []guess
		for _, family := range []string{"ride_height", "tire_pressure"} {
			if found := unitFor(family, unit, values); found != "" && slices.Contains(names[family], strings.Replace(rest, wheel, "", 1)) {
				fitting = append(fitting, guess{i, "measurements", family + "_" + corner, "", found, 0.9 * isNumber})
			}
		}
		if len(fitting) > 1 {
			fitting[0].score, fitting[1].score = 0.5, 0.45
		}
		if len(fitting) > 0 {
			return fitting
		}
	}
	return nil
}

func isMillimetres(values []string) bool {
	return len(values) > 0 && share(values, func(value string) bool {
		number, err := strconv.ParseFloat(plainNumber(value), 64)
		return err == nil && number >= 1000 && number < 10000 && !looksYear.MatchString(value)
	}) > 0.9
}

// nameAndUnit parts a header's name from its unit; the values tell a unit too.
func (d *drafting) nameAndUnit(i int) (rest, unit string) {
	for _, token := range tokensOf(d.names[i]) {
		if known, ok := unitNames[token]; ok {
			unit = known
		} else {
			rest += token
		}
	}
	switch {
	case unit != "":
	case strings.Contains(d.names[i], "°"):
		unit = "deg"
	case strings.Contains(d.names[i], "%"):
		unit = "pct"
	default:
		for _, value := range d.values[i] {
			if match := numberInUnit.FindStringSubmatch(value); match != nil {
				return rest, unitNames[strings.ToLower(match[2])]
			}
		}
	}
	return rest, unit
}

// unitFor is the unit given where it fits the quantity, or the only one whose usual range the values lie in.
func unitFor(quantity, given string, values []string) string {
	units := fittingUnits[quantity]
	if _, fits := units[given]; fits || given != "" {
		if fits {
			return given
		}
		return ""
	}
	found := ""
	for unit, within := range units {
		inside := share(values, func(value string) bool {
			number, err := strconv.ParseFloat(plainNumber(value), 64)
			return err == nil && number >= within[0] && number <= within[1] && within != [2]float64{}
		})
		if inside > 0.9 && len(values) > 0 {
			if found != "" {
				return ""
			}
			found = unit
		}
	}
	return found
}

// plainNumber reads a number as a person would: of two marks the last is the decimal one, and one that three digits
// follow parts thousands.
func plainNumber(value string) string {
	match := numberInUnit.FindStringSubmatch(strings.TrimSpace(value))
	if match == nil {
		return ""
	}
	text := match[1]
	if last := strings.LastIndexAny(text, ".,"); last >= 0 {
		whole := strings.NewReplacer(".", "", ",", "").Replace(text[:last])
		if strings.Count(text, text[last:last+1]) > 1 || (text[last] == ',' && len(text)-last == 4) {
			return whole + text[last+1:]
		}
		return whole + "." + text[last+1:]
	}
	return text
}

func firstNumbers(values []string) []string {
	var first []string
	for _, value := range values {
		first = append(first, regexp.MustCompile(`^[\d.,]+`).FindString(value))
	}
	return first
}
