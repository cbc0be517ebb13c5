package invent

import "time"

// technician is one person, known by a code.
type technician struct {
	code  string
	alias string  // another spelling under which some attempts are logged
	skill float64 // multiplies the chance that a first attempt fails
	diary diary

	sets []heightSet // ride heights written down lately, newest last
}

// heightSet is one set of ride heights that a technician wrote down.
type heightSet struct {
	at      time.Time
	car     *vehicle
	heights [4]int
}

// signature is the code under which a calibration tool logs the technician:
// mostly the usual one.
func (t *technician) signature(d dice) string {
	if t.alias != "" && d.chance(0.2) {
		return t.alias
	}
	return t.code
}

// remember keeps a written set for as long as somebody might copy it.
func (t *technician) remember(set heightSet) {
	t.sets = append(t.sets, set)
	if len(t.sets) > 12 {
		t.sets = t.sets[1:]
	}
}
