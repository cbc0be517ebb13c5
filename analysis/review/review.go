// Package review makes the monthly quality review: pages for a browser and a workbook, both from the exhibits
// that analysis/answer makes of one Review. It asks analysis/quality for all figures and computes none; it knows no SQL.
package review

import (
	"plumbline/analysis/answer"
	"plumbline/analysis/quality"
)

// What a review says of itself, and how complete it finds the records.
type (
	About        = answer.About
	Completeness = answer.Completeness
	Lack         = answer.Lack
)

// A Review is everything that the pages and the workbook of a month show.
type Review struct {
	About     About
	Figures   answer.Figures       // the month's figures, in the order of the opening page
	Decisions []answer.Consequence // what needs a person's decision, the gravest first; only those that occur
	Known     []quality.Finding    // all up to the month's end
	Earlier   []answer.Known       // those of the review before; nil without one
	Undecided []quality.Finding    // up to the month's end, the gravest first
	Comebacks Comebacks
	Failures  Failures
	Scans     PostScan
	Glass     Glass
	People    People
	Evidence  Evidence
	Data      DataQuality
	Vehicles  []Vehicle                         // that the lists name, at most mostVehicles, the gravest first
	Findings  []quality.Finding                 // all of the month, the gravest first
	Groups    []quality.Comparison              // tasks that were not first pass, by further groupings that only the workbook shows
	Standing  []quality.Standout                // the gravest first
	Summaries map[string][]quality.GroupSummary // of the twelve months, by shop and by insurer
	Actions   []quality.Action                  // of the twelve months that end with the review's
	Offered   []quality.ActionCandidate
	Subjects  []Subject // stands, boards, bays and people that are called, or whose rate has changed
	Named     int64     // vehicles that the lists name, with those beyond mostVehicles
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
	SystemsBefore []quality.SystemResult           // in the twelve months before
	Rework        []quality.ReworkLine             // of the thirteen months that end with the review's
	Codes         quality.FailurePattern           // of the twelve months, by code
	Changes       []quality.Change                 // what differed at the next attempt, over the twelve months
	Waits         []quality.Wait                   // of the twelve months that end with the month
	Causes        map[string][]quality.ReworkCause // of the twelve months
	Again         []quality.ReworkAttempt
	Hours         quality.Clock // of all records up to the month's end
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
	Answers []answer.GlassAnswer
	Groups  []quality.Comparison // suppliers and brands, outcome by outcome
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

// DataQuality is the page of what was taken in, set aside and left out.
type DataQuality struct {
	Marks    []quality.Mark
	Balances []quality.Balance
	Rejects  []quality.RejectReason
	LeftOut  []quality.Coverage // tasks that a grouping leaves out because their record lacks the value
	Clocks   []quality.Clocks   // shops whose clocks seem to disagree
	Names    []quality.Spelling // probable duplicates among technicians
}

// A Vehicle is one vehicle that a list names.
type Vehicle struct {
	Page     string  // file name of its page
	VIN      *string // nil where the job has none
	Shop     string  // of the gravest finding
	JobNo    string
	Findings []quality.Finding // of the month
	Story    quality.Story     // everything on record, over all shops
}

// A Subject is a stand, a board, a bay or a person with a page of its own.
type Subject struct {
	Page string // file name of its page
	Why  []string
	quality.SubjectStory
}
