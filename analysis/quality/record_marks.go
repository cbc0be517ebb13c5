package quality

import (
	"context"
	"time"

	"plumbline/analysis/history"
)

// A Mark counts records of a kind that were taken in although something about them is not as it should be.
type Mark struct {
	Mark  string // vin_malformed, unattached, …
	Kind  string // jobs, glass, …
	Count int64
	N     int64 // records of the kind
}

// Marks lists what the records on file are marked with. Of the filter only the shop counts: a mark has no time.
func Marks(ctx context.Context, h *history.History, f Filter) ([]Mark, error) {
	return history.Select[Mark](ctx, h, "measures/record_marks", history.Params{"shop": orNull(f.Shop)})
}

// A Balance is what one file brought of one kind of record. Read is the sum of added, updated, unchanged and
// rejected.
type Balance struct {
	Import    int64
	At        time.Time
	File      string
	Sheet     *string
	Kind      string
	Read      int64
	Added     int64
	Updated   int64
	Unchanged int64
	Rejected  int64
	Undone    bool // the import was taken back
}

// Balances lists all imports, file by file.
func Balances(ctx context.Context, h *history.History) ([]Balance, error) {
	return history.Select[Balance](ctx, h, "measures/import_balances", nil)
}

// A RejectReason is why rows were set aside.
type RejectReason struct {
	Kind       string
	ColumnName *string // nil where the whole row is at fault
	Reason     string
	Count      int64   // faults
	Rows       int64   // rows
	Example    *string // the first value at fault
	File       string
	Line       int64
}

// RejectReasons counts the rows set aside by reason, the commonest first.
func RejectReasons(ctx context.Context, h *history.History) ([]RejectReason, error) {
	return history.Select[RejectReason](ctx, h, "measures/reject_reasons", nil)
}
