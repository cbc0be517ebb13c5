// Package quality answers the questions of a quality review from a history: which findings, which rates, which groups
// differ, and since when. It runs the SQL in queries/, hands counts to stats, and returns plain structs; it reads no
// files, draws nothing and prints nothing.
package quality

import (
	"strings"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// An Outcome is what a rate counts.
type Outcome string

// The outcomes. OpenFaults counts occurrences, and only a trend shows it.
const (
	NotFirstPass  Outcome = "not_first_pass"
	Comeback      Outcome = "comeback"
	PostScanFault Outcome = "post_scan_fault"
	OpenFaults    Outcome = "open_faults"
)

// Outcomes lists those that groups are compared by.
var Outcomes = []Outcome{NotFirstPass, Comeback, PostScanFault}

// TrendOutcomes lists those that a trend shows.
var TrendOutcomes = []Outcome{NotFirstPass, Comeback, PostScanFault, OpenFaults}

// A Filter chooses what is shown and counted. The zero value is everything. What a record means is always judged on
// the whole history.
type Filter struct {
	Shop     string     // empty: all shops
	From, To *time.Time // both bounds are inside; nil: open
	Kinds    []string   // of findings; none: all
	Classes  []string   // of findings; none: all

	Severities []string // of findings; none: all
	Undecided  bool     // findings: only those that nobody has confirmed or dismissed
	Insurer    string   // of findings, on whose jobs, without regard to case; empty: all
}

// Severities lists them, the gravest first.
var Severities = []string{"high", "medium", "low"}

// scope gives the parameters that all measures share.
func (f Filter) scope() history.Params {
	return history.Params{"shop": orNull(f.Shop), "from": f.From, "to": f.To}
}

// with adds a query's own parameters to those of the scope.
func (f Filter) with(own history.Params) history.Params {
	params := f.scope()
	for name, value := range own {
		params[name] = value
	}
	return params
}

func orNull(text string) any {
	if text == "" {
		return nil
	}
	return text
}

func joined(words []string) any { return orNull(strings.Join(words, ",")) }

// value makes a figure optional: nil where it is not defined.
func value(x float64, defined bool) *float64 {
	if !defined {
		return nil
	}
	return &x
}

// estimate spreads an estimate over the optional figures of a row.
func estimate(e stats.Estimate) (point, low, high *float64) {
	return value(e.Value, e.Defined), value(e.Interval.Low, e.Defined), value(e.Interval.High, e.Defined)
}
