package quality

import (
	"time"

	"plumbline/analysis/history"
)

// A Story is everything on record about one vehicle, over all shops, or about one job whose vehicle is not known.
type Story struct {
	Asked       string  // as the user named it
	VIN         string  // empty where the job's is missing
	WellFormed  bool    // the VIN is: only then does it tie visits together
	Make, Model *string // of the latest visit that has them
	ModelYear   *int64
	Visits      []StoryVisit // in order of opening
	Events      []StoryEvent // in order of time
	Findings    []Finding    // about these visits, and those that rest on them as the earlier record
	Decisions   []history.Decision
}

// An EventKind is what an event of a story is about.
type EventKind string

// The kinds. At the same moment they come in this order.
const (
	OpenedEvent   EventKind = "opened"
	GlassEvent    EventKind = "glass"
	ScanEvent     EventKind = "scan"
	AttemptEvent  EventKind = "attempt"
	RoadTestEvent EventKind = "road_test"
	DocumentEvent EventKind = "document"
	FindingEvent  EventKind = "finding"
	ClosedEvent   EventKind = "closed"
	DecisionEvent EventKind = "decision"
)

// A Tone says at a glance how an event went.
type Tone string

// The tones.
const (
	Good    Tone = "good"
	Bad     Tone = "bad"
	Neutral Tone = "neutral"
)

// A StoryEvent is one thing that happened. Of the pointers the one of its kind is set.
type StoryEvent struct {
	At       time.Time
	Until    *time.Time // the end, where one is known
	Dated    bool       // false: no time is on record, and At is that of the visit's end, or start while it is open
	DateOnly bool       // the record gives the day alone
	Shop     string
	JobNo    string
	Kind     EventKind
	Tone     Tone
	Text     string // in words, one line
	Details  []string
	Visit    *StoryVisit // of opened and closed
	Glass    *StoryGlass
	Scan     *StoryScan
	Attempt  *StoryAttempt
	RoadTest *StoryRoadTest
	Document *StoryDocument
	Finding  *Finding // of finding and decision
	Decision *history.Decision
}

// A StoryVisit is one visit, with the measurements of the whole job.
type StoryVisit struct {
	Shop, JobNo  string
	VIN          *string `db:"vin"`
	VINForm      string  `db:"vin_form"` // well_formed, malformed or missing
	Make, Model  *string
	ModelYear    *int64
	OdometerKM   *float64 `db:"odometer_km"`
	OpenedAt     time.Time
	ClosedAt     *time.Time // nil while open
	OpenedOnDate bool
	ClosedOnDate bool
	Reason       string
	Complaint    *string
	Insurer      *string
	ClaimNo      *string
	ComebackOf   *string
	Technician   *string
	IsAsked      bool           `db:"-"` // the job that the user named
	Readings     []StoryReading `db:"-"`
}

// A StoryGlass is one pane fitted.
type StoryGlass struct {
	Shop, JobNo             string
	Position, Source        string
	Brand, PartNo, Supplier *string
	Bracket                 *string
	InstalledAt             *time.Time
	InstalledOnDate         bool
	DriveAwayMin            *float64
	Installer               *string
}

// A StoryScan is one scan with its faults.
type StoryScan struct {
	Shop, JobNo      string
	ScanNo           int64
	Stage            string
	ScannedAt        time.Time
	ScannedOnDate    bool
	ModulesPolled    *int64
	ModulesResponded *int64
	Technician       *string
	Faults           []StoryFault `db:"-"`
}

// A StoryFault is one trouble code in one scan. Class says what became of it: cleared, new, remaining or no_pre_scan, in
// the scans before and after the calibration; nil in all others.
type StoryFault struct {
	Shop, JobNo  string
	ScanNo       int64
	Module, Code string
	Status       string
	IsOpen       bool
	System       *string
	Description  *string
	Class        *string
}

// A StoryAttempt is one calibration attempt with its measured values and what changed since the attempt before it.
type StoryAttempt struct {
	Shop, JobNo     string
	System          string
	Position        *string
	AttemptNo       int64
	Method          *string
	StartedAt       time.Time
	EndedAt         *time.Time
	StartedOnDate   bool
	Outcome         string
	FailureCode     *string
	FailureText     *string
	Technician      *string
	Bay             *string
	Equipment       *string
	Target          *string
	SoftwareVersion *string
	Procedure       *string
	Provider        *string
	Readings        []StoryReading `db:"-"`
	Changed         []StoryChange  `db:"-"`
}

// A StoryReading is one measured value beside its tolerance.
type StoryReading struct {
	Shop, JobNo string
	System      *string // nil: of the whole job
	Position    *string
	AttemptNo   *int64
	Quantity    string
	Value       float64
	Unit        string
	SpecLow     *float64
	SpecHigh    *float64
	Outside     *string // low or high; nil: inside, or no tolerance is known
}

// A StoryChange is one thing that differs from the attempt before. Of a quantity, before and after say where it lay.
type StoryChange struct {
	Shop, JobNo   string
	System        string
	Position      *string
	AttemptNo     int64
	What          string
	Before, After *string
	ValueBefore   *float64
	ValueAfter    *float64
	Unit          *string
}

// A StoryRoadTest is one road test.
type StoryRoadTest struct {
	Shop, JobNo   string
	TestNo        int64
	StartedAt     time.Time
	EndedAt       *time.Time
	StartedOnDate bool
	DistanceKM    *float64 `db:"distance_km"`
	Outcome       string
	Technician    *string
	Note          *string
}

// A StoryDocument is one document of a job.
type StoryDocument struct {
	Shop, JobNo string
	Kind        string
	FileName    string
	SHA256      *string `db:"sha256"`
	AddedAt     *time.Time
	AddedOnDate bool
}
