package invent

import "fmt"

// insurer is an invented insurer and how it numbers claims; spelled is how
// some clerks write its name.
type insurer struct {
	name, spelled string
	claim         string // a format for year and number
}

// insurerWeights is who insures the vehicles; nil where the customer pays.
var insurerWeights = []option[*insurer]{
	{30, &insurer{"Marram Mutual", "MARRAM MUTUAL", "MM%d%07d"}},
	{20, &insurer{"Hartfell & Sons Insurance", "Hartfell & Sons Insurance", "HS-%d-%06d"}},
	{14, &insurer{`Beacon "Direct" Cover`, `Beacon "Direct" Cover`, "B%d/%06d"}},
	{12, &insurer{"Pinfold Fleet Insurance", "Pinfold Fleet Insurance", "PF%d-%06d"}},
	{8, &insurer{"Tidewell Cooperative", "Tidewell Cooperative", "%d.%06d"}},
	{16, nil},
}

// payShare is how often an insurer pays for a job of this reason.
var payShare = map[string]float64{
	"windshield_replacement": 0.82, "camera_removed": 0.35, "collision_repair": 0.93,
	"sensor_replaced": 0.4, "calibration_only": 0.6, "other": 0.3,
}

// insure notes insurer and claim on a job. A comeback goes under the claim of
// the job that it comes back from, or under none.
func (s *stay) insure() {
	if prior := s.why.prior; prior != nil {
		if s.chance(0.5) {
			s.v.Job.Insurer, s.v.Job.ClaimNo = prior.insurer, prior.claim
		}
		return
	}
	who := s.car.insurer
	if who == nil || !s.chance(payShare[s.why.reason]) {
		return
	}
	s.v.Job.Insurer = who.name
	if s.chance(0.15) {
		s.v.Job.Insurer = who.spelled
	}
	s.g.claims += s.between(3, 60)
	s.v.Job.ClaimNo = fmt.Sprintf(who.claim, s.v.Job.OpenedAt.Year(), s.g.claims)
}
