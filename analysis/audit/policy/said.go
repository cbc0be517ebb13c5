package policy

import "strings"

// said puts what is missing in words.
func said(what, subject string) string {
	plain := strings.ReplaceAll(strings.ReplaceAll(subject, "_scan", "-scan"), "_", " ")
	switch what {
	case "document":
		return "Document: " + plain
	case "scan":
		return strings.ToUpper(subject[:1]) + subject[1:] + "-scan"
	case "road_test":
		return "Passed road test after the last completed work"
	case "measurement":
		return "Measurement: " + plain
	case "equipment_verified":
		return "Equipment with a passed check that was good on the day"
	case "procedure_named":
		return "The maker's procedure, named"
	case "time_limit":
		return "Time limit kept: " + plain
	}
	switch subject {
	case "pre_scan_before":
		return "Order: pre-scan before the first attempt"
	case "post_scan_after":
		return "Order: post-scan after the last attempt"
	default:
		return "Order: road test between the work and the post-scan"
	}
}
