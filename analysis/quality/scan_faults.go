package quality

import (
	"context"

	"plumbline/analysis/history"
)

// A ScanMonth is what became of the trouble codes between the scan before and the scan after, in a month's jobs.
type ScanMonth struct {
	Month        string
	Jobs         int64 // calibrated jobs with a scan after
	Compared     int64 // of these, with a scan before as well
	FaultsBefore int64 // codes read before, in compared jobs
	Cleared      int64 // of these, not read after
	StillStored  int64 // read after as stored only: never flagged
	Remaining    int64 // open after, and read before
	New          int64 // open after, and not read before
	NoPreScan    int64 // open after, with nothing to compare with
}

// Left counts the open codes of all classes.
func (m ScanMonth) Left() int64 { return m.Remaining + m.New + m.NoPreScan }

// ScanFaultsByMonth counts trouble codes month by month, without gaps.
func ScanFaultsByMonth(ctx context.Context, h *history.History, f Filter) ([]ScanMonth, error) {
	return history.Select[ScanMonth](ctx, h, "measures/scan_faults_by_month", f.scope())
}

// A ScanModule is one module of the vehicle with the trouble codes that it kept or lost.
type ScanModule struct {
	System    *string // nil for a module that serves no driver-assistance system
	Module    string
	Jobs      int64 // with an open code of it in the scan after
	New       int64
	Remaining int64
	NoPreScan int64
	Cleared   int64
	Codes     *string // the codes left open, joined by a comma and a space; nil where none is
}

// Left counts the open codes of all classes.
func (m ScanModule) Left() int64 { return m.Remaining + m.New + m.NoPreScan }

// ScanFaultsByModule counts trouble codes by module, the most left open first.
func ScanFaultsByModule(ctx context.Context, h *history.History, f Filter) ([]ScanModule, error) {
	return history.Select[ScanModule](ctx, h, "measures/scan_faults_by_module", f.scope())
}
