package quality

import (
	"context"
	"time"

	"plumbline/analysis/history"
)

// A Return is a comeback with both of its visits.
type Return struct {
	Finding         string
	Class           string // linked, probable, continuation, possible or uncalibrated
	IsCounted       bool   // takes part in rates
	Decision        *string
	Shop            string
	JobNo           string
	VIN             *string `db:"vin"`
	Make            *string
	Model           *string
	OpenedAt        time.Time
	Reason          string
	Complaint       *string
	PriorShop       string
	PriorJobNo      string
	PriorClosedAt   *time.Time // nil while the earlier job is open
	PriorTechnician *string
	Supplier        *string // of the earlier job's windshield
	Days            *float64
	Ruling
}

// Returns lists the comebacks whose return visit lies in the filter's span, counted or not, the latest first.
func Returns(ctx context.Context, h *history.History, f Filter) ([]Return, error) {
	return history.Select[Return](ctx, h, "measures/comeback_list", f.scope())
}
