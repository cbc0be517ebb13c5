package quality

import (
	"context"
	"fmt"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/stats"
)

// ReferenceSource is the glass that the others are compared with: the vehicle maker's own part.
const ReferenceSource = "oem"

// glassSources are compared with the reference, in this order.
var glassSources = []string{"oee", "aftermarket", "recycled"}

// StrataFactors lists what the glass question can be stratified by; the first two are the default.
var StrataFactors = []string{"make", "model", "shop", "method", "model_year"}

// A Verdict is the answer to one row of the glass question, in a word.
type Verdict string

// The verdicts. A crude difference is told where Q is below 0.05, one like with like where MHQ is.
const (
	TooLittle     Verdict = "too_little"     // fewer than 10 on either side, or fewer than 5 events in all
	NotComparable Verdict = "not_comparable" // no stratum holds both sources and both results
	Reverses      Verdict = "reverses"       // both told, on opposite sides
	Differs       Verdict = "differs"        // both told
	Emerges       Verdict = "emerges"        // only like with like told
	Fades         Verdict = "fades"          // only crude told, and like with like it goes
	Unsettled     Verdict = "unsettled"      // only crude told, and like with like it does not go
	NotShown      Verdict = "not_shown"      // neither told
)

// A GlassRow compares one source with the reference for one outcome. Nil is a figure that the counts do not determine.
type GlassRow struct {
	Outcome        Outcome
	Source         string
	N              int64
	Count          int64
	Rate           *float64
	ReferenceN     int64
	ReferenceCount int64
	ReferenceRate  *float64
	RiskDifference *float64
	RDLow          *float64 `col:"rd_low"`
	RDHigh         *float64 `col:"rd_high"`
	RiskRatio      *float64
	RRLow          *float64 `col:"rr_low"`
	RRHigh         *float64 `col:"rr_high"`
	OddsRatio      *float64
	ORLow          *float64 `col:"or_low"`
	ORHigh         *float64 `col:"or_high"`
	FisherP        *float64
	MHOddsRatio    *float64 `col:"mh_odds_ratio"`
	MHLow          *float64 `col:"mh_low"`
	MHHigh         *float64 `col:"mh_high"`
	MHChi2         *float64 `col:"mh_chi2"`
	MHP            *float64 `col:"mh_p"`
	BDChi2         *float64 `col:"bd_chi2"`
	BDP            *float64 `col:"bd_p"`
	Q              *float64 // of FisherP, over the rows with units on both sides
	MHQ            *float64 `col:"mh_q"` // of MHP, over those of these that have one
	Verdict        Verdict
	Strata         []Stratum `col:"-"` // behind the Mantel-Haenszel figures, largest first
	MHDifference   float64   `col:"-"` // Mantel and Haenszel's: above 0 where like with like the source has the higher rate
}

// A Stratum is like beside like: one source and the reference within, say, one make and model.
type Stratum struct {
	Name              string
	Source, Reference stats.Proportion
}

// Informative reports whether the stratum holds both sources and both results, so that it says something.
func (s Stratum) Informative() bool { return s.table().Informative() }

func (s Stratum) table() stats.Table2x2 { return stats.Against(s.Source, s.Reference) }

// Glass compares the sources of the windshield with the reference, outcome by outcome, crude and within strata.
func Glass(ctx context.Context, h *history.History, strata []string, f Filter) ([]GlassRow, error) {
	if len(strata) == 0 {
		strata = StrataFactors[:2]
	}
	counts, err := history.Select[glassCount](ctx, h, "measures/glass",
		f.with(history.Params{"strata": strings.Join(strata, ",")}))
	if err != nil {
		return nil, err
	}
	rows := []GlassRow{}
	for _, outcome := range []Outcome{NotFirstPass, PostScanFault, Comeback} {
		for _, source := range glassSources {
			row, err := glassRow(outcome, source, counts)
			if err != nil {
				return nil, fmt.Errorf("glass %s, %s: %w", outcome, source, err)
			}
			rows = append(rows, row)
		}
	}
	return rows, judgeGlass(rows)
}

type glassCount struct {
	Outcome Outcome
	Source  string
	Stratum *string
	N       int64
	Count   int64
}

// judgeGlass turns the p of the rows into q and gives each its verdict.
func judgeGlass(rows []GlassRow) error {
	crude := func(r *GlassRow) *float64 { return value(*r.FisherP, r.N > 0 && r.ReferenceN > 0) }
	if err := adjust(rows, crude, func(r *GlassRow, q float64) { r.Q = &q }); err != nil {
		return err
	}
	if err := adjust(rows, func(r *GlassRow) *float64 { return r.MHP }, func(r *GlassRow, q float64) { r.MHQ = &q }); err != nil {
		return err
	}
	for i := range rows {
		rows[i].Verdict = rows[i].verdict()
	}
	return nil
}
