package invent

// complaints are customers' own words, by the system that they are about.
var complaints = map[string][]string{
	"front_camera": {
		"lane warning light stays on", "lane assist drops out on the highway", "steering wheel tugs to the right when lane assist is on",
		"message about the front camera every morning", "traffic signs are not shown any more", "emergency braking message, then it is gone again",
		"high beam does not dim by itself", "camera blocked message though the glass is clean", "lane keeping came on late twice this week",
		"says \"driver assist limited\" since last week", "beeps at nothing on country roads",
	},
	"front_radar": {
		"cruise control switches itself off", "brakes for cars in the other lane", "distance warning comes far too late",
		"message: radar sensor blocked", "adaptive cruise does not see motorcycles", "brakes hard under bridges",
	},
	"rear_corner_radar": {"blind spot light on the left stays lit", "blind spot warning missed a car", "rear cross traffic alarm goes off in an empty lot"},
	"surround_camera":   {"bird's-eye picture has a step in it", "right mirror picture is tilted", "lines in the parking picture do not match the car"},
	"steering_angle":    {"steering wheel is not straight", "stability light on after the alignment", "pulls left, wheel sits crooked"},
	"":                  {"warning light came on", "dash says service driver assist", "something beeps now and then"},
}

// again are words of people who have been here before for the same thing.
var again = []string{
	"same light is back", "was fine for a week, now the light is on again", "lane assist off again since the windshield was changed",
	"still not right after the last visit", "warning came back on the way home", "had this calibrated here, message is back",
	"works in town, drops out on the highway since the repair", "customer not happy, wants it looked at again",
}

// remarks are what people mention when they come with other work.
var remarks = map[string][]string{
	"windshield_replacement": {"stone chip that ran overnight", "crack in the driver's view", "please check the wipers too", "hail",
		"parked on the street, glass broken", "needs it back by Friday", "wants the toll sticker moved"},
	"collision_repair": {"scratch and dent from a parking garage", "deer", "hit from behind at a light", "slid into a curb", "needs a rental car"},
	"wheel_alignment":  {"pulls a little to the left", "new tires", "hit a pothole"},
	"other":            {"rear glass broken into", "rattle at the tailgate"},
}

// complain puts the errand into the customer's words, if any.
func (g *group) complain(e *errand) string {
	switch {
	case e.prior != nil && g.chance(0.6):
		return pick(g.dice, again...)
	case e.prior != nil || e.reason == "warning_light" || e.reason == "customer_complaint":
		words, known := complaints[e.firstSystem()]
		if !known {
			words = complaints[""]
		}
		return pick(g.dice, words...)
	case len(remarks[e.reason]) > 0 && g.chance(0.15):
		return pick(g.dice, remarks[e.reason]...)
	default:
		return ""
	}
}
