// Package review makes the monthly quality review: pages for a browser and a workbook, both from one Review. It asks
// analysis/quality for all figures and computes none of its own but their wording; it knows no SQL.
package review

import (
	"time"

	"plumbline/analysis/quality"
	"plumbline/analysis/stats"
)

// A Review is everything that the pages and the workbook of a month show.
type Review struct {
	About     About
	Figures   []Figure      // the month's figures, in the order of the opening page
	Decisions []Consequence // what needs a person's decision, the gravest first; only those that occur
	Comebacks Comebacks
	Failures  Failures
	Scans     PostScan
	Glass     Glass
	People    People
	Evidence  Evidence
	Data      DataQuality
	Vehicles  []Vehicle            // flagged in the month, at most mostVehicles, the latest finding first
	Findings  []quality.Finding    // all of the month, the gravest first
	Groups    []quality.Comparison // tasks that were not first pass, by further groupings that only the workbook shows
	Flagged   int64                // vehicles flagged in the month, with those beyond mostVehicles
}

// About says what the review is of, and how it was made.
type About struct {
	Month      string    // 2026-08; empty where the history holds nothing that a month could be made of
	From, To   time.Time // the month's first and last moment
	Scope      quality.Scope
	Filter     quality.Filter
	Version    string         // of plumbline
	Volume     quality.Volume // what was done in the month
	Before     quality.Volume // and in the month before
	LaborRate  *float64       // an hour
	Currency   string
	MonthEnded bool // the records reach to the last day of the month
	AsOfAsked  bool // the reader named the moment himself
}

// IsEmpty reports whether there is no month to show.
func (a About) IsEmpty() bool { return a.Month == "" }

// A Figure is one of the numbers that the month is judged by.
type Figure struct {
	Name string // first_pass, comeback, open_faults
	// The work done again is no rate and has no figure here: see Failures.Rework.
	Now    quality.Reading      // the month's, or for comebacks that of the last wholly matured month
	Before *quality.Reading     // one month earlier than Now; nil where there was none
	Points []quality.TrendPoint // all months up to the review's, in the outcome's own terms (not_first_pass)
}

// A Consequence is a group of findings that ask for the same decision.
type Consequence struct {
	Heading  string
	Why      string
	Page     string            // where all of its kind are
	Findings []quality.Finding // undecided ones of the month
	Decided  int64             // of the month, confirmed or dismissed already
}

// Comebacks is the page of return visits.
type Comebacks struct {
	Trend    []quality.TrendPoint
	Curve    *quality.Curve  // all calibrated closed jobs; nil where there is none
	BySource []quality.Curve // by the windshield's source
	Month    []quality.Return
	Year     []quality.Return // of the twelve months that end with the review's, the latest first
}

// Failures is the page of repeats and failures.
type Failures struct {
	Trend         []quality.TrendPoint // of not_first_pass
	Systems       []quality.SystemResult
	SystemsBefore []quality.SystemResult // in the twelve months before
	Rework        []quality.ReworkLine   // of the thirteen months that end with the review's
	Findings      []quality.Finding
	Codes         quality.FailurePattern // of the twelve months, by code
	Changes       []quality.Change       // what differed at the next attempt, over the twelve months
	Waits         []quality.Wait         // of the twelve months that end with the month
	Hours         quality.Clock          // of all records up to the month's end
	Weekdays      quality.Clock
}

// PostScan is the page of trouble codes after calibration.
type PostScan struct {
	Share   []quality.TrendPoint // of jobs with a new or remaining code
	PerJob  []quality.TrendPoint // open codes a job
	Months  []quality.ScanMonth  // the last thirteen
	Modules []quality.ScanModule // of the month
	Year    []quality.ScanModule // of the twelve months that end with it
}

// Glass is the page of the glass-source question, over all records up to the month's end.
type Glass struct {
	Strata  []string // what like was compared with like by
	Answers []GlassAnswer
	Groups  []quality.Comparison // suppliers and brands, outcome by outcome
}

// A GlassAnswer is one row with the smallest difference that its volume could have shown.
type GlassAnswer struct {
	quality.GlassRow
	Detectable *stats.Detectable // nil where a side has no units
}

// People is the page of people and equipment, over all records up to the month's end.
type People struct {
	Groups  []quality.Comparison // tasks that were not first pass, grouping by grouping
	Onsets  []quality.OnsetTable // when a group's rate changed
	Rates   []quality.OnsetView  // of the group that did most clearly, grouping by grouping
	TooMany []string             // groupings with more than mostOnsets groups, in which no change was looked for
	Drifts  []quality.Drift      // measured values by stand, the clearest shift first
	Series  []quality.DriftView  // of those that shifted, the clearest first, at most mostViews
}

// Evidence is the page of gaps in the record.
type Evidence struct {
	Tallies []quality.Tally    // of the thirteen months that end with the review's
	ByShop  []quality.Gap      // of jobs closed in the last twelve
	Digits  []quality.DigitRow // last digits by technician and quantity, over the twelve months
	// Completeness is judged by a requirement policy; nil where the review is made without one.
	Completeness *Completeness
}

// Completeness is how many closed calibrated jobs opened in the twelve months have on record all that a policy asks for.
type Completeness struct {
	Policy        string
	Complete, Due int64
	Lacking       []Lack // the most frequent first
}

// A Lack is one thing that the policy asks for and jobs do not have.
type Lack struct {
	What string
	Jobs int64
}

// DataQuality is the page of what was taken in, set aside and left out.
type DataQuality struct {
	Marks    []quality.Mark
	Balances []quality.Balance
	Rejects  []quality.RejectReason
	LeftOut  []quality.Coverage // tasks that a grouping leaves out because their record lacks the value
	Names    []quality.Spelling // probable duplicates among technicians
}

// A Vehicle is one vehicle with a finding of high severity in the month.
type Vehicle struct {
	Page     string  // file name of its page
	VIN      *string // nil where the job has none
	Shop     string  // of the latest such finding
	JobNo    string
	Findings []quality.Finding // of the month
	Story    quality.Story     // everything on record, over all shops
}
