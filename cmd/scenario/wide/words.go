package wide

// The desk's own words for those of the record layout.
var (
	reasons = map[string]string{
		"windshield_replacement": "W/S R&R", "camera_removed": "Cam R&I", "collision_repair": "Body", "wheel_alignment": "Align",
		"suspension_work": "Susp.", "sensor_replaced": "Sensor", "software_update": "SW upd.", "warning_light": "Light on",
		"customer_complaint": "Compl.", "recheck": "Re-check", "calibration_only": "Cal only", "other": "Misc",
	}
	sources = map[string]string{
		"oem": "OEM", "oee": "OEE", "aftermarket": "A/M", "recycled": "used", "original": "R&I own", "unknown": "?",
	}
	brackets = map[string]string{"integral": "on glass", "transferred": "moved over", "new_bonded": "new, glued"}
	methods  = map[string]string{"static": "board", "dynamic": "drive", "static_dynamic": "board + drive"}
	outcomes = map[string]string{"completed": "OK", "failed": "NG", "aborted": "stopped"}
	yesNo    = map[string]string{"passed": "Y", "failed": "N"}

	systems = map[string]string{
		"front_camera": "front camera", "front_radar": "front radar", "front_corner_radar": "front corner radar",
		"rear_corner_radar": "rear radar", "surround_camera": "360 camera", "rear_camera": "backup camera", "lidar": "lidar",
		"infrared_camera": "night camera", "ultrasonic": "park sensors", "steering_angle": "SAS",
	}
	sides = map[string]string{"left": " L", "right": " R"}
)

// remarks are for the desk's own use.
var remarks = []string{
	"called, no answer", "paid cash", "key under the mat", "customer waits at the café", "wiper arm ½ turn loose", "plate holder missing",
	"old sticker kept – see envelope", "child seat in the back", "invoice to fleet", "tow-in",
}
