package invent

import "time"

// errand is why a vehicle comes to a shop.
type errand struct {
	car       *vehicle
	reason    string
	complaint string
	tasks     []task
	faulty    string // system with an open fault on arrival, if any
	skipped   bool   // the windshield is changed, the calibration is left out
	elsewhere bool   // another shop of the group calibrates it the next days

	shop  *shop // for errands that were foreseen: where and
	due   time.Time
	prior *priorJob // the job that this visit comes back from
	link  string    // job number that the shop writes as comeback_of

	replacesBadGlass bool
}

// priorJob is what a comeback needs to know of the job before.
type priorJob struct{ insurer, claim string }

// reasonMix is what brings vehicles in, comebacks apart. Summer has more
// alignments and travels, winter more broken windshields.
var (
	winterMix = []option[string]{{54, "windshield_replacement"}, {3, "camera_removed"}, {15, "collision_repair"}, {5, "wheel_alignment"},
		{2, "suspension_work"}, {4, "sensor_replaced"}, {2, "software_update"}, {3, "warning_light"}, {1, "customer_complaint"}, {8, "calibration_only"}, {3, "other"}}
	summerMix = []option[string]{{47, "windshield_replacement"}, {4, "camera_removed"}, {14, "collision_repair"}, {8, "wheel_alignment"},
		{3, "suspension_work"}, {5, "sensor_replaced"}, {3, "software_update"}, {3, "warning_light"}, {2, "customer_complaint"}, {8, "calibration_only"}, {3, "other"}}
)

func drawReason(d dice, at time.Time) string {
	if month := at.Month(); month >= time.November || month <= time.March {
		return draw(d, winterMix)
	}
	return draw(d, summerMix)
}

// walkIn makes up an ordinary visit: a vehicle new to the group, or one that
// it has seen before.
func (g *group) walkIn(s *shop, at time.Time) *errand {
	var car *vehicle
	if g.chance(0.17) {
		car = g.returning(at)
	}
	known := car != nil
	if !known {
		car = g.newVehicle(at)
	}
	e := &errand{car: car, reason: drawReason(g.dice, at)}
	if e.reason == "camera_removed" && !car.camera {
		e.reason = "windshield_replacement"
	}
	e.tasks = g.tasksFor(e.reason, car)
	g.leaveOut(e, s, known)
	if e.reason == "warning_light" || e.reason == "customer_complaint" {
		e.faulty = e.firstSystem()
	}
	e.complaint = g.complain(e)
	return e
}

// leaveOut plants the calibrations that should have been and were not.
func (g *group) leaveOut(e *errand, s *shop, known bool) {
	glass := e.reason == "windshield_replacement" || e.reason == "camera_removed"
	switch {
	case glass && e.car.camera && g.chance(s.skipsCamera):
		e.tasks, e.skipped = nil, true
	case glass && e.car.camera && len(g.shops) > 1 && s == g.shops[len(g.shops)-1] && e.car.model.maker == "Merrow" && g.chance(0.2):
		e.tasks, e.elsewhere = nil, true // the small shop sends these to the large one
	case e.reason == "wheel_alignment" && known && e.car.calibrated && g.chance(0.12):
		e.tasks = nil
	}
}

func (e *errand) firstSystem() string {
	if len(e.tasks) == 0 {
		return ""
	}
	return e.tasks[0].system
}
