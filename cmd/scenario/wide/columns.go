package wide

import (
	"strconv"
	"strings"
	"time"

	"plumbline/cmd/scenario/record"
)

// entry is a job as the desk sees it; row is its place in the list.
type entry struct {
	*record.Visit
	session
	row   int
	pane  *record.Glass
	drive *record.RoadTest
}

func entryOf(v *record.Visit, row int) entry {
	e := entry{Visit: v, session: sessionOf(v), row: row}
	for i := range v.Glass {
		if v.Glass[i].Position == "windshield" {
			e.pane = &v.Glass[i]
		}
	}
	if n := len(v.RoadTests); n > 0 {
		e.drive = &v.RoadTests[n-1]
	}
	return e
}

// column is one column of the list: the group above it, its name, its cell.
type column struct {
	group, name string
	cell        func(e entry) string
}

var columns = []column{
	{"", "Month", func(e entry) string { return "" }}, // filled by the writer
	{"Job", "RO #", func(e entry) string { return e.Job.No }},
	{"", "Date In", func(e entry) string { return date(e.Job.OpenedAt) }},
	{"", "Time In", func(e entry) string { return clock(e.Job.OpenedAt) }},
	{"", "Date Out", func(e entry) string { return date(e.Job.ClosedAt) }},
	{"", "Time Out", func(e entry) string { return clock(e.Job.ClosedAt) }},
	{"", "Lead", func(e entry) string { return e.Job.Technician }},
	{"Vehicle", "VIN #", func(e entry) string { return spacedVIN(e.Job.VIN, e.row) }},
	{"", "Yr", func(e entry) string { return strconv.Itoa(e.Job.ModelYear) }},
	{"", "Make / Model", func(e entry) string { return e.Job.Make + " " + e.Job.Model }},
	{"", "Odo (mi)", func(e entry) string { return miles(e.Job.OdometerKM) }},
	{"Why", "Job type", func(e entry) string { return reasons[e.Job.Reason] }},
	{"", "Customer says", func(e entry) string { return e.Job.Complaint }},
	{"", "Back from RO #", func(e entry) string { return e.Job.ComebackOf }},
	{"Insurance", "Ins. Co.", func(e entry) string { return e.Job.Insurer }},
	{"", "Claim #", func(e entry) string { return e.Job.ClaimNo }},
	{"Glass", "W/S", ofPane(func(g *record.Glass) string { return sources[g.Source] })},
	{"", "W/S maker", ofPane(func(g *record.Glass) string { return g.Brand })},
	{"", "W/S no.", ofPane(func(g *record.Glass) string { return g.PartNo })},
	{"", "Supplier", ofPane(func(g *record.Glass) string { return g.Supplier })},
	{"", "Bracket", ofPane(func(g *record.Glass) string { return brackets[g.Bracket] })},
	{"", "W/S set", ofPane(func(g *record.Glass) string { return format(g.InstalledAt, "01/02/2006 3:04 PM") })},
	{"", "SDAT", ofPane(func(g *record.Glass) string { return strconv.Itoa(g.DriveAwayMin) })},
	{"Calibration", "Systems calibrated", func(e entry) string { return names(e.tasks) }},
	{"", "How", ofWork(func(a record.Attempt) string { return methods[a.Method] })},
	{"", "Cal start", func(e entry) string { return moment(e.start) }},
	{"", "Cal end", func(e entry) string { return moment(e.end) }},
	{"", "Result", ofWork(func(a record.Attempt) string { return outcomes[a.Outcome] })},
	{"", "NG note", ofWork(note)},
	{"First try, front camera", "1st start", ofFirst(func(a *record.Attempt) string { return moment(a.StartedAt) })},
	{"", "1st end", ofFirst(func(a *record.Attempt) string { return moment(a.EndedAt) })},
	{"", "1st result", ofFirst(func(a *record.Attempt) string { return outcomes[a.Outcome] })},
	{"", "1st note", ofFirst(func(a *record.Attempt) string { return note(*a) })},
	{"Set-up", "Bay", ofWork(func(a record.Attempt) string { return a.Bay })},
	{"", "Frame", ofWork(func(a record.Attempt) string { return a.Equipment })},
	{"", "Board", ofWork(func(a record.Attempt) string { return a.Target })},
	{"", "SW", ofWork(func(a record.Attempt) string { return a.SoftwareVersion })},
	{"", "Procedure", ofWork(func(a record.Attempt) string { return a.Procedure })},
	{"Measured", "Target mm", ofCamera("target_distance", 1, 1)},
	{"", "LF in", ofCamera("ride_height_lf", 1/mmPerInch, 2)},
	{"", "RF in", ofCamera("ride_height_rf", 1/mmPerInch, 2)},
	{"", "LR in", ofCamera("ride_height_lr", 1/mmPerInch, 2)},
	{"", "RR in", ofCamera("ride_height_rr", 1/mmPerInch, 2)},
	{"", "Pitch °", ofCamera("pitch", 1, 2)},
	{"", "Yaw °", ofCamera("yaw", 1, 2)},
	{"", "Tires psi", func(e entry) string { return tires(e.Visit) }},
	{"", "Batt.", func(e entry) string { return volts(reading(e.Visit, record.Attempt{}, "battery_voltage")) }},
	{"Scan before", "Pre-scan", ofScan("pre")},
	{"", "Pre modules", func(e entry) string { return modules(e.Visit, "pre") }},
	{"", "Pre codes", func(e entry) string { return codes(e.Visit, "pre") }},
	{"Scan after", "Post-scan", ofScan("post")},
	{"", "Post modules", func(e entry) string { return modules(e.Visit, "post") }},
	{"", "Post codes", func(e entry) string { return codes(e.Visit, "post") }},
	{"Road test", "Road test", ofDrive(func(t *record.RoadTest) string { return moment(t.StartedAt) })},
	{"", "RT end", ofDrive(func(t *record.RoadTest) string { return moment(t.EndedAt) })},
	{"", "RT mi", ofDrive(func(t *record.RoadTest) string { return convert(t.DistanceKM, 1/kmPerMile, 1) })},
	{"", "RT ok", ofDrive(func(t *record.RoadTest) string { return yesNo[t.Outcome] })},
	{"Papers", "Files", files},
	{"", "Remarks", func(e entry) string { return remark(e.row) }},
}

func ofPane(cell func(*record.Glass) string) func(entry) string {
	return func(e entry) string {
		if e.pane == nil {
			return ""
		}
		return cell(e.pane)
	}
}

func ofFirst(cell func(*record.Attempt) string) func(entry) string {
	return func(e entry) string {
		if e.firstTry == nil {
			return ""
		}
		return cell(e.firstTry)
	}
}

func ofDrive(cell func(*record.RoadTest) string) func(entry) string {
	return func(e entry) string {
		if e.drive == nil {
			return ""
		}
		return cell(e.drive)
	}
}

// ofWork takes what a session's systems share from the first of them.
func ofWork(cell func(record.Attempt) string) func(entry) string {
	return func(e entry) string {
		if len(e.tasks) == 0 {
			return ""
		}
		return cell(e.tasks[0])
	}
}

func ofCamera(quantity string, factor float64, decimals int) func(entry) string {
	return func(e entry) string {
		a, found := e.camera()
		if !found {
			return ""
		}
		return convert(reading(e.Visit, a, quantity), factor, decimals)
	}
}

func ofScan(stage string) func(entry) string {
	return func(e entry) string {
		s, _ := scan(e.Visit, stage)
		return moment(s.ScannedAt)
	}
}

func files(e entry) string {
	var kept []string
	for _, d := range e.Documents {
		kept = append(kept, d.FileName)
	}
	return strings.Join(kept, "; ")
}

func miles(km int) string {
	if km == 0 {
		return ""
	}
	return decimal(float64(km)/kmPerMile, 0)
}

func volts(written string) string {
	if written == "" {
		return ""
	}
	return convert(written, 1, 1) + " V"
}

func remark(row int) string {
	if row%6 != 1 {
		return ""
	}
	return remarks[row/6%len(remarks)]
}

func month(t time.Time) string { return t.Format("January 2006") }
