package quality

import (
	"context"
	"time"

	"plumbline/analysis/history"
)

// A Spelling is two names of one shop that may be one technician. They are reported and never merged: the records stay as
// they are, and each name is a group of its own everywhere.
type Spelling struct {
	Shop       string
	Name       string // the commoner
	Other      string // the rarer
	Uses       int64  // records that carry the commoner name
	OtherUses  int64
	Class      string     // same_letters (but for case, spaces, punctuation, accents, leading zeros) or one_letter
	OtherFirst *time.Time // when the rarer name was first used
	OtherLast  *time.Time
}

// Spellings lists the probable duplicates among technicians.
func Spellings(ctx context.Context, h *history.History) ([]Spelling, error) {
	return history.Select[Spelling](ctx, h, "measures/technician_spellings", nil)
}
