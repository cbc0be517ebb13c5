package invent

// task is one system to calibrate, and which of several like sensors.
type task struct{ system, position string }

var (
	camera       = task{"front_camera", ""}
	radar        = task{"front_radar", ""}
	steering     = task{"steering_angle", ""}
	surround     = task{"surround_camera", ""}
	rearCamera   = task{"rear_camera", ""}
	parking      = task{"ultrasonic", ""}
	lidar        = task{"lidar", "front"}
	nightCamera  = task{"infrared_camera", ""}
	rearCorners  = []task{{"rear_corner_radar", "left"}, {"rear_corner_radar", "right"}}
	frontCorners = []task{{"front_corner_radar", "left"}, {"front_corner_radar", "right"}}
)

// wish is a set of tasks that belong together and how often a job needs them.
type wish struct {
	chance float64
	tasks  []task
}

// calledFor is what each reason for a job asks to be calibrated, on vehicles
// that have the system. That a replaced windshield, a sensor that was off, a
// replaced sensor and a wheel alignment ask for it is common practice, no
// source; the shares are made up.
var calledFor = map[string][]wish{
	"windshield_replacement": {{1, []task{camera}}, {0.9, []task{nightCamera}}, {0.04, []task{steering}}},
	"camera_removed":         {{1, []task{camera}}, {0.1, []task{radar}}},
	"wheel_alignment":        {{0.86, []task{steering}}, {0.3, []task{camera}}, {0.3, []task{radar}}},
	"suspension_work":        {{0.7, []task{steering}}, {0.55, []task{camera}}, {0.4, []task{radar}}},
	"software_update":        {{0.6, []task{camera}}, {0.4, []task{radar}}, {0.15, []task{surround}}},
	"warning_light":          {{0.5, []task{camera}}, {0.4, []task{radar}}},
	"customer_complaint":     {{0.5, []task{camera}}, {0.25, []task{radar}}, {0.1, []task{surround}}},
	"recheck":                {{0.6, []task{camera}}},
	"calibration_only":       {{0.62, []task{camera}}, {0.42, []task{radar}}, {0.2, rearCorners}, {0.1, []task{surround}}, {0.2, []task{lidar}}},
}

// Where the blow fell decides what a collision repair asks for.
var (
	frontBlow  = []wish{{0.85, []task{radar}}, {0.5, []task{camera}}, {0.6, frontCorners}, {0.5, []task{lidar}}, {0.3, []task{parking}}, {0.4, []task{steering}}}
	rearBlow   = []wish{{0.85, rearCorners}, {0.5, []task{rearCamera}}, {0.4, []task{parking}}}
	sideBlow   = []wish{{0.5, rearCorners}, {0.6, []task{surround}}, {0.3, []task{steering}}}
	newSensors = []wish{{0.35, []task{radar}}, {0.3, rearCorners[:1]}, {0.25, rearCorners[1:]}, {0.3, []task{rearCamera}}, {0.2, []task{parking}}, {0.15, []task{surround}}}
)

// tasksFor draws what a job asks for. A job that must calibrate something but
// drew nothing gets the steering angle sensor, which each vehicle has.
func (g *group) tasksFor(reason string, v *vehicle) []task {
	wishes := calledFor[reason]
	switch reason {
	case "collision_repair":
		wishes = pick(g.dice, frontBlow, frontBlow, rearBlow, sideBlow)
	case "sensor_replaced":
		wishes = newSensors
	}
	var tasks []task
	for _, w := range wishes {
		if v.has(w.tasks[0].system) && g.chance(w.chance) {
			tasks = append(tasks, w.tasks...)
		}
	}
	if len(tasks) == 0 && (reason == "wheel_alignment" || reason == "calibration_only") {
		tasks = []task{steering}
	}
	return tasks
}

// readsGlass tells whether the system looks through the windshield.
func (t task) readsGlass() bool { return t.system == "front_camera" || t.system == "infrared_camera" }
