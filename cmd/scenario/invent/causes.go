package invent

import "strings"

// cause is why an attempt did not complete, and how the report puts it.
type cause struct {
	code    string
	words   []string // the first is the usual text, the others are variants seen in reports
	aborted bool
	reading string // the quantity that the report shows out of tolerance, if any
}

var (
	noTarget   = &cause{"E110", []string{"target not detected", "Target not detected", "target not found", "taget not detected"}, false, ""}
	distance   = &cause{"E112", []string{"target distance out of range", "Target distance out of range", "distance to target out of range"}, false, "target_distance"}
	tilted     = &cause{"E114", []string{"target not level", "Target board not level"}, false, ""}
	pitchedOff = &cause{"E120", []string{"pitch out of range", "Pitch out of range", "pitch angle exceeds limit"}, false, "pitch"}
	yawedOff   = &cause{"E121", []string{"yaw out of range", "yaw angle exceeds limit", "Yaw out of range"}, false, "yaw"}
	rolledOff  = &cause{"E122", []string{"roll out of range"}, false, "roll"}
	tooDark    = &cause{"E131", []string{"ambient light too low", "too dark", "Ambient light too low"}, false, "ambient_light"}
	glare      = &cause{"E132", []string{"reflection on target", "glare"}, false, ""}
	lowVolts   = &cause{"E140", []string{"battery voltage low", "supply voltage low", "Battery voltage low"}, false, "battery_voltage"}
	silentUnit = &cause{"E150", []string{"no response from module", "module not responding", "time-out"}, false, ""}
	stopped    = &cause{"E160", []string{"stopped by operator", "aborted by operator", "Stopped by operator"}, true, ""}
	tooSlow    = &cause{"E171", []string{"speed not reached", "driving speed not held"}, true, ""}
	noLines    = &cause{"E172", []string{"lane markings not detected", "no lane markings", "Lane markings not detected"}, false, ""}
	rain       = &cause{"E173", []string{"rain", "wipers on, drive ended"}, true, ""}
	distorted  = &cause{"E190", []string{"image distorted in camera window", "optical distortion", "Image distorted in camera window"}, false, "pitch"}
	offAxis    = &cause{"E180", []string{"sensor off axis, horizontal", "horizontal aim out of range"}, false, "yaw"}
	offPlane   = &cause{"E181", []string{"sensor off axis, vertical", "vertical aim out of range"}, false, "pitch"}
	noWheel    = &cause{"E185", []string{"steering wheel not centered"}, false, ""}
)

var (
	standCauses = []option[*cause]{{24, noTarget}, {20, distance}, {8, tilted}, {12, pitchedOff}, {9, yawedOff}, {4, rolledOff},
		{8, tooDark}, {4, glare}, {5, lowVolts}, {4, silentUnit}, {9, stopped}}
	roadCauses     = []option[*cause]{{32, noLines}, {26, tooSlow}, {16, rain}, {10, stopped}, {8, silentUnit}}
	radarCauses    = []option[*cause]{{30, offAxis}, {26, offPlane}, {18, noTarget}, {8, silentUnit}, {6, lowVolts}, {8, stopped}}
	otherCauses    = []option[*cause]{{40, silentUnit}, {25, lowVolts}, {25, stopped}}
	steeringCauses = []option[*cause]{{60, noWheel}, {20, silentUnit}, {20, stopped}}
	driftCauses    = []option[*cause]{{36, distance}, {32, pitchedOff}, {26, yawedOff}, {6, noTarget}}
	glassCauses    = []option[*cause]{{62, distorted}, {22, pitchedOff}, {10, noTarget}, {6, stopped}}
)

// whatWentWrong draws the cause of a failed attempt. drift is how far the
// stand had walked away.
func (s *stay) whatWentWrong(t task, method string, drift float64) *cause {
	switch {
	case t.readsGlass() && s.car.distorted():
		return draw(s.dice, glassCauses)
	case drift > 0 && s.chance(0.9):
		return draw(s.dice, driftCauses)
	case method == "dynamic" && t.system != "steering_angle":
		return draw(s.dice, roadCauses)
	case t.readsGlass():
		return draw(s.dice, standCauses)
	case strings.Contains(t.system, "radar"):
		return draw(s.dice, radarCauses)
	case t.system == "steering_angle":
		return draw(s.dice, steeringCauses)
	default:
		return draw(s.dice, otherCauses)
	}
}

// text is the report's wording: mostly the usual one.
func (c *cause) text(d dice) string {
	if d.chance(0.72) {
		return c.words[0]
	}
	return pick(d, c.words...)
}

// report is what stands in the calibration report; a code is missing here and
// there, as people leave it out.
func (s *stay) report(c *cause) (outcome, code, text string) {
	outcome = "failed"
	if c.aborted {
		outcome = "aborted"
	}
	code, text = c.code, c.text(s.dice)
	if s.chance(0.05) {
		code = ""
	}
	return outcome, code, text
}
