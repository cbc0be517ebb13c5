package invent

// model is one vehicle model of an invented maker. The makers' identifiers
// are ones that (from memory of ISO 3780) no maker holds.
type model struct {
	maker, name string
	wmi, vds    string
	weight      int // share of the vehicles on the road
	first, last int // model years
	cameraFrom  int // model year from which each has a front camera

	cameraStages []string // calibration methods, one a stage
	trouble      float64  // chance that a first camera attempt fails, whatever the glass
	glass        []option[string]

	distance, targetHeight int // mm
	rideFront, rideRear    int // mm at the wheel arch
	pressure               int // kPa
	modules                int // control modules with every option on board
	fitted                 map[string]int
	radarStage             string
}

// How often each source of windshield goes onto a model. On models that are
// hard to calibrate the maker's own part is dear or late, and the trade fits
// aftermarket: that alone makes aftermarket look bad when all models are
// thrown together.
var (
	ordinaryGlass = []option[string]{{60, "oem"}, {22, "oee"}, {13, "aftermarket"}, {3, "recycled"}, {1, "original"}, {1, "unknown"}}
	hardGlass     = []option[string]{{17, "oem"}, {14, "oee"}, {63, "aftermarket"}, {3, "recycled"}, {1, "original"}, {2, "unknown"}}
	popularGlass  = []option[string]{{36, "oem"}, {41, "oee"}, {19, "aftermarket"}, {2, "recycled"}, {1, "original"}, {1, "unknown"}}
)

var (
	onStand  = []string{"static"}
	onRoad   = []string{"dynamic"}
	bothways = []string{"static_dynamic"}
	inStages = []string{"static", "dynamic"}
)

var models = []*model{
	{maker: "Aurelle", name: "Plover", wmi: "1ZZ", vds: "PL4AK", weight: 15, first: 2015, last: 2026, cameraFrom: 2018,
		cameraStages: onStand, trouble: 0.05, glass: ordinaryGlass, distance: 1500, targetHeight: 1350,
		rideFront: 655, rideRear: 662, pressure: 230, modules: 286, radarStage: "static",
		fitted: map[string]int{"front_radar": 2019, "rear_corner_radar": 2021, "rear_camera": 2016, "ultrasonic": 2015}},
	{maker: "Aurelle", name: "Sedge", wmi: "1ZZ", vds: "SD5BN", weight: 12, first: 2016, last: 2026, cameraFrom: 2018,
		cameraStages: onStand, trouble: 0.055, glass: ordinaryGlass, distance: 1500, targetHeight: 1410,
		rideFront: 702, rideRear: 715, pressure: 240, modules: 318, radarStage: "static",
		fitted: map[string]int{"front_radar": 2018, "front_corner_radar": 2022, "rear_corner_radar": 2019, "surround_camera": 2021, "rear_camera": 2016}},
	{maker: "Aurelle", name: "Curlew", wmi: "1ZZ", vds: "CU2EV", weight: 6, first: 2020, last: 2026, cameraFrom: 2020,
		cameraStages: onRoad, trouble: 0.06, glass: ordinaryGlass, distance: 1500, targetHeight: 1390,
		rideFront: 688, rideRear: 695, pressure: 260, modules: 372, radarStage: "dynamic",
		fitted: map[string]int{"front_radar": 2020, "front_corner_radar": 2020, "rear_corner_radar": 2020, "surround_camera": 2020, "lidar": 2023}},
	{maker: "Brantis", name: "Marl", wmi: "4ZZ", vds: "MR3HC", weight: 12, first: 2014, last: 2026, cameraFrom: 2018,
		cameraStages: onRoad, trouble: 0.06, glass: ordinaryGlass, distance: 1480, targetHeight: 1320,
		rideFront: 664, rideRear: 650, pressure: 220, modules: 254, radarStage: "dynamic",
		fitted: map[string]int{"front_radar": 2019, "rear_camera": 2017, "ultrasonic": 2016}},
	{maker: "Brantis", name: "Rill", wmi: "4ZZ", vds: "RL1HC", weight: 8, first: 2018, last: 2026, cameraFrom: 2018,
		cameraStages: bothways, trouble: 0.065, glass: ordinaryGlass, distance: 1480, targetHeight: 1310,
		rideFront: 641, rideRear: 648, pressure: 220, modules: 297, radarStage: "dynamic",
		fitted: map[string]int{"front_radar": 2018, "rear_corner_radar": 2020, "rear_camera": 2018, "ultrasonic": 2018}},
	{maker: "Kavero", name: "Tansy", wmi: "5ZZ", vds: "TN6WG", weight: 17, first: 2017, last: 2026, cameraFrom: 2018,
		cameraStages: onStand, trouble: 0.08, glass: popularGlass, distance: 1550, targetHeight: 1425,
		rideFront: 671, rideRear: 684, pressure: 250, modules: 366, radarStage: "static",
		fitted: map[string]int{"front_radar": 2018, "rear_corner_radar": 2019, "surround_camera": 2020, "rear_camera": 2017}},
	{maker: "Kavero", name: "Lintel", wmi: "5ZZ", vds: "LT8WG", weight: 5, first: 2019, last: 2026, cameraFrom: 2019,
		cameraStages: onStand, trouble: 0.07, glass: ordinaryGlass, distance: 1550, targetHeight: 1470,
		rideFront: 728, rideRear: 741, pressure: 270, modules: 402, radarStage: "static",
		fitted: map[string]int{"front_radar": 2019, "front_corner_radar": 2020, "rear_corner_radar": 2019, "surround_camera": 2019, "infrared_camera": 2022}},
	{maker: "Ombrix", name: "Thicket", wmi: "EZZ", vds: "TH7SU", weight: 12, first: 2016, last: 2026, cameraFrom: 2017,
		cameraStages: inStages, trouble: 0.22, glass: hardGlass, distance: 1600, targetHeight: 1505,
		rideFront: 746, rideRear: 758, pressure: 240, modules: 438, radarStage: "static",
		fitted: map[string]int{"front_radar": 2018, "rear_corner_radar": 2018, "surround_camera": 2019, "rear_camera": 2016}},
	{maker: "Ombrix", name: "Ferrule", wmi: "EZZ", vds: "FE2SA", weight: 7, first: 2018, last: 2026, cameraFrom: 2018,
		cameraStages: onStand, trouble: 0.24, glass: hardGlass, distance: 1600, targetHeight: 1300,
		rideFront: 649, rideRear: 640, pressure: 240, modules: 391, radarStage: "static",
		fitted: map[string]int{"front_radar": 2018, "front_corner_radar": 2021, "rear_corner_radar": 2018, "rear_camera": 2018}},
	{maker: "Merrow", name: "Wend", wmi: "DZZ", vds: "WN1HB", weight: 9, first: 2015, last: 2025, cameraFrom: 2018,
		cameraStages: onStand, trouble: 0.20, glass: hardGlass, distance: 1450, targetHeight: 1285,
		rideFront: 618, rideRear: 632, pressure: 210, modules: 233, radarStage: "dynamic",
		fitted: map[string]int{"front_radar": 2020, "rear_camera": 2018, "ultrasonic": 2017}},
	{maker: "Merrow", name: "Tarn", wmi: "DZZ", vds: "TR4EV", weight: 4, first: 2020, last: 2026, cameraFrom: 2020,
		cameraStages: bothways, trouble: 0.09, glass: ordinaryGlass, distance: 1450, targetHeight: 1395,
		rideFront: 690, rideRear: 702, pressure: 260, modules: 327, radarStage: "dynamic",
		fitted: map[string]int{"front_radar": 2020, "rear_corner_radar": 2020, "surround_camera": 2022, "rear_camera": 2020}},
}

// has tells whether a vehicle of this model and year has the system. Each
// vehicle has a steering angle sensor.
func (m *model) has(system string, year int) bool {
	if system == "steering_angle" {
		return true
	}
	from, fitted := m.fitted[system]
	return fitted && year >= from
}

// stages are the methods of a complete calibration, in order.
func (m *model) stages(system string) []string {
	switch system {
	case "front_camera", "infrared_camera":
		return m.cameraStages
	case "front_radar", "front_corner_radar", "lidar":
		return []string{m.radarStage}
	default:
		return onStand
	}
}
