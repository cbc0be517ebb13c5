package quality

import (
	"context"
	"time"

	"plumbline/analysis/history"
)

// A Finding is one flag, with the keys of the records that it rests on. Nil is a column that the kind does not have.
type Finding struct {
	Finding        string
	Kind           string
	Class          *string
	Severity       string
	Shop           string
	JobNo          string
	VIN            *string `db:"vin"`
	System         *string
	Position       *string
	AttemptNo      *int64
	Subject        *string
	At             *time.Time
	Technician     *string
	PriorShop      *string
	PriorJobNo     *string
	PriorSystem    *string
	PriorPosition  *string
	PriorAttemptNo *int64
	Days           *float64
	Decision       *string
	Detail         *string
	Ruling
}

// A Ruling is who decided on a finding, when and why; nil where nobody has. The columns of the command are fixed and do
// not have it.
type Ruling struct {
	DecidedBy    *string    `col:"-"`
	DecidedAt    *time.Time `col:"-"`
	DecisionNote *string    `col:"-"`
}

// Findings lists the findings that pass the filter, the gravest first, then the latest. The history must have been
// looked back.
func Findings(ctx context.Context, h *history.History, f Filter) ([]Finding, error) {
	return history.Select[Finding](ctx, h, "measures/findings_list", f.with(history.Params{
		"kinds": joined(f.Kinds), "classes": joined(f.Classes), "severities": joined(f.Severities),
		"undecided": f.Undecided, "insurer": orNull(f.Insurer),
	}))
}
