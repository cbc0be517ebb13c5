package layout

// A Numbering is how a record is known within its job: by a number or, where its source numbers nothing, by its moment.
type Numbering struct {
	Number string   // the number's column
	At     string   // the moment's column
	Task   []string // within these columns a number is one record's
	Among  []string // within these a moment is one record's
	Stage  string   // the column that a moment is of beside the task; empty where there is none
	Owner  string   // the kind of record that number and moment name; empty: the row's own
}

var numberings = map[string]*Numbering{
	"calibrations": {Number: "attempt_no", At: "started_at", Task: ofTask, Among: ofTask},
	"measurements": {Number: "attempt_no", At: "started_at", Task: ofTask, Among: ofTask, Owner: "calibrations"},
	"scans":        {Number: "scan_no", At: "scanned_at", Task: ofJob, Among: ofStage, Stage: "stage"},
	"faults":       {Number: "scan_no", At: "scanned_at", Task: ofJob, Among: ofStage, Stage: "stage", Owner: "scans"},
	"road_tests":   {Number: "test_no", At: "started_at", Task: ofJob, Among: ofJob},
}

var (
	ofJob   = []string{"shop", "job_no"}
	ofStage = []string{"shop", "job_no", "stage"}
	ofTask  = []string{"shop", "job_no", "system", "position"}
)

// Numbering tells how the kind's records are known; nil where their keys alone do.
func (k *Kind) Numbering() *Numbering { return numberings[k.Name] }

// HasJob tells whether the kind's records belong to a job.
func (k *Kind) HasJob() bool { return k.Column("job_no") != nil }

// NamingColumns are the columns of the kind's table by which records are known that their source does not number.
func (k *Kind) NamingColumns() []string {
	switch n := k.Numbering(); {
	case n == nil:
		return nil
	case n.Owner != "":
		return []string{"known_as"}
	}
	return []string{"known_as", "number_given"}
}
