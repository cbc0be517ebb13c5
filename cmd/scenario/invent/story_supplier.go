package invent

import "time"

// From January 2025 on the group buys equivalent windshields from Ostrel. On the
// Kavero Tansy their camera window distorts the image: the calibration fails,
// often fails again, and what passes comes back. On other models the same
// supplier's glass is as good as any.
const (
	plantedSupplier = "Ostrel"
	plantedBrand    = "Orrest"
	plantedModel    = "Tansy"

	distortedTrouble  = 0.52 // chance that the first attempt fails
	distortedRetry    = 0.38 // chance that a repeat fails
	distortedComeback = 0.24 // chance that the job comes back
)

var plantedFrom = day(2025, time.January, 13)

// distorted tells whether the vehicle looks through such a windshield.
func (v *vehicle) distorted() bool {
	return v.pane != nil && v.model.name == plantedModel && v.pane.supplier == plantedSupplier
}
