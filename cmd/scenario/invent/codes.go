package invent

import "strings"

// trouble is a trouble code that a module may set. Codes have the form of
// SAE J2012 and lie in the ranges it leaves to vehicle makers, so that their
// meaning could be made up.
type trouble struct{ code, words string }

// unit is a module as scans name it, and the codes that it sets.
type unit struct {
	name     string
	troubles []trouble
}

// units are the modules behind the driver-assistance systems.
var units = map[string]unit{
	"front_camera": {"Forward Vision Unit", []trouble{{"C1A40-54", "camera calibration missing"}, {"C1A41-78", "camera aim outside limits"},
		{"C1A44-97", "view blocked"}, {"U1A40-00", "no message from forward vision unit"}, {"C1A46-49", "camera internal fault"}}},
	"front_radar": {"Distance Radar", []trouble{{"C1B10-54", "radar calibration missing"}, {"C1B11-78", "radar aim outside limits"},
		{"C1B13-97", "radar blocked"}, {"U1B10-00", "no message from distance radar"}}},
	"front_corner_radar": {"Corner Radar Front", []trouble{{"C1B30-54", "corner radar calibration missing"}, {"C1B31-78", "corner radar aim outside limits"}}},
	"rear_corner_radar": {"Corner Radar Rear", []trouble{{"C1B50-54", "corner radar calibration missing"}, {"C1B51-78", "corner radar aim outside limits"},
		{"U1B50-00", "no message from corner radar"}}},
	"surround_camera": {"Surround View Unit", []trouble{{"B1C20-54", "surround calibration missing"}, {"B1C22-11", "mirror camera shorted to ground"}}},
	"rear_camera":     {"Rear View Camera", []trouble{{"B1C40-54", "rear camera calibration missing"}, {"B1C41-13", "rear camera open circuit"}}},
	"lidar":           {"Lidar Head", []trouble{{"C1D10-54", "lidar calibration missing"}, {"C1D12-97", "lidar window blocked"}}},
	"infrared_camera": {"Night View Camera", []trouble{{"B1C60-54", "night view calibration missing"}}},
	"ultrasonic":      {"Parking Distance Unit", []trouble{{"B1D10-13", "distance sensor open circuit"}, {"B1D14-54", "sensor position not learned"}}},
	"steering_angle":  {"Steering Angle Sensor", []trouble{{"C1E10-54", "steering angle zero point missing"}, {"C1E12-29", "steering angle implausible"}}},
}

// bystanders are modules that serve no driver-assistance system.
var bystanders = []option[unit]{
	{20, unit{"Power Supply Manager", []trouble{{"B1300-16", "supply voltage was low"}, {"P1560-21", "battery was disconnected"}}}},
	{14, unit{"Body Control", []trouble{{"B1342-12", "courtesy light circuit"}, {"B1348-13", "door contact open circuit"}}}},
	{12, unit{"Climate Control", []trouble{{"B1402-15", "sun sensor open circuit"}, {"B1407", "flap motor position"}}}},
	{12, unit{"Tire Monitor", []trouble{{"C1720-31", "wheel sensor not heard"}, {"C1722", "wheel sensor battery low"}}}},
	{10, unit{"Rain Light Sensor", []trouble{{"B1610-96", "sensor not coupled to glass"}, {"B1611", "sensor calibration"}}}},
	{9, unit{"Telematics Box", []trouble{{"U1700-87", "no network registration"}, {"B1720-1C", "backup battery voltage"}}}},
	{8, unit{"Cabin Gateway", []trouble{{"U1103-88", "data bus off for a time"}, {"U1140", "message lost"}}}},
	{7, unit{"Airbag Control", []trouble{{"B1810-1A", "belt buckle resistance"}, {"B1816", "seat connector was open"}}}},
	{7, unit{"Brake Control", []trouble{{"C1310-64", "wheel speed signal implausible"}, {"C1318", "voltage dip recorded"}}}},
	{3, unit{"Engine Control", []trouble{{"P1190", "air filter heater"}, {"P1641-1F", "fan control signal"}}}},
}

// The gateway of one maker reports numbers of its own instead of trouble codes.
var oddCodes = []trouble{{"9104A2", "event memory 9104"}, {"A0-331", "event memory A0"}, {"9120FF", "event memory 9120"}}

// unitName is the module as scans of the vehicle show it: one maker has its own
// word for the camera, and like sensors are told apart.
func (m *model) unitName(system, position string) string {
	name := units[system].name
	if m.maker == "Kavero" && system == "front_camera" {
		name = "Lane and Sign Camera"
	}
	if position == "left" || position == "right" {
		name += " " + strings.ToUpper(position[:1]) + position[1:]
	}
	return name
}

// written is a code as the shop's scan tool prints it.
func (s *shop) written(code string) string {
	if s.compactCodes {
		return strings.ReplaceAll(code, "-", "")
	}
	return code
}
