// Package wide writes the job list of a shop that joined the group as its
// front desk keeps it: one row a job, in the desk's own words, exported from
// a spreadsheet. It is what an import has to cope with when a shop's history
// is not in the record layout.
//
// The file: Windows-1252, CRLF, semicolons, decimal comma, point for thousands.
// Three lines of preamble, two header rows (groups, then names), a blank row
// before each month, two blank rows, a row of totals and a footnote at the end.
// Dates are month/day/year with a 12-hour clock. Every row of a job has an RO #.
//
// The columns, with what they mean in the record layout:
//
//	Month              filled in the month's first row only; of no use
//	RO #               job_no
//	Date In, Time In   opened_at
//	Date Out, Time Out closed_at; empty while the job is open
//	Lead               technician, of the job and of all its work
//	VIN #              vin, here and there with spaces or in small letters
//	Yr                 model_year
//	Make / Model       make, up to the first space, and model
//	Odo (mi)           odometer_km, in miles with a point for thousands
//	Job type           reason, in the desk's words (words.go)
//	Customer says      complaint
//	Back from RO #     comeback_of
//	Ins. Co., Claim #  insurer, claim_no
//	W/S                source of the windshield, in the desk's words; empty: no glass in this job
//	W/S maker, W/S no., Supplier, Bracket
//	                   brand, part_no, supplier, bracket (in the desk's words)
//	W/S set            installed_at
//	SDAT               drive_away_min
//	Systems calibrated the systems of one session, separated by semicolons (words.go); they share
//	                   all that follows up to Procedure
//	How                method
//	Cal start, Cal end started_at, ended_at
//	Result             outcome, in the desk's words
//	NG note            failure_code and failure_text in one cell, where the result is not OK
//	1st start, 1st end, 1st result, 1st note
//	                   an earlier attempt on the front camera in the same job that did not complete: attempt 1,
//	                   and the one under Systems calibrated is then attempt 2
//	Bay, Frame, Board  bay, equipment, target
//	SW                 software_version
//	Procedure          procedure
//	Target mm          target_distance of the front camera's last attempt
//	LF in … RR in      ride_height_lf … rr of that attempt, in inches
//	Pitch °, Yaw °     pitch, yaw of that attempt, in degrees
//	Tires psi          the four tire pressures of the job: lf/rf/lr/rr
//	Batt.              battery_voltage of the job, with the unit in the cell
//	Pre-scan           scanned_at of scan 1, stage pre
//	Pre modules        modules_responded of modules_polled
//	Pre codes          faults as "module: CODE (status)", separated by semicolons; "none"
//	Post-scan, Post modules, Post codes
//	                   the same for the scan of stage post
//	Road test, RT end  started_at, ended_at of the road test
//	RT mi              distance_km, in miles
//	RT ok              outcome: Y or N
//	Files              file_name of the documents, separated by semicolons; the name tells the kind
//	Remarks            for the desk only
package wide
