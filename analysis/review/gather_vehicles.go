package review

import (
	"plumbline/analysis/answer"
	"plumbline/analysis/quality"
)

// mostVehicles is how many vehicles have a page of their own: a month of a large group of shops can name thousands.
const mostVehicles = 600

// vehicles gathers the findings and the story of each vehicle that a list of the review names, the gravest first: those
// with findings in the month, return visits of the year, and what was left undecided and matters.
func (g *gathering) vehicles(r *Review) error {
	found, err := g.found()
	if err != nil {
		return err
	}
	places := map[string]int{} // page name to place in r.Vehicles
	name := func(shop, jobNo string, vin *string) {
		page := vehiclePage(shop, jobNo, vin)
		if _, known := places[page]; known {
			return
		}
		r.Named++
		places[page] = -1
		if len(r.Vehicles) < mostVehicles {
			places[page] = len(r.Vehicles)
			r.Vehicles = append(r.Vehicles, Vehicle{Page: page, VIN: vin, Shop: shop, JobNo: jobNo})
		}
	}
	for _, finding := range found {
		name(finding.Shop, finding.JobNo, finding.VIN)
	}
	for _, back := range r.Comebacks.Year {
		name(back.Shop, back.JobNo, back.VIN)
	}
	for _, group := range answer.Consequences(r.Undecided) {
		for _, finding := range group.Findings {
			name(finding.Shop, finding.JobNo, finding.VIN)
		}
	}
	for _, finding := range found {
		if place := places[vehiclePage(finding.Shop, finding.JobNo, finding.VIN)]; place >= 0 {
			r.Vehicles[place].Findings = append(r.Vehicles[place].Findings, finding)
		}
	}
	jobs := make([]quality.JobName, len(r.Vehicles))
	for i, vehicle := range r.Vehicles {
		jobs[i] = quality.JobName{Shop: vehicle.Shop, JobNo: vehicle.JobNo}
	}
	stories, err := quality.Stories(g.ctx, g.h, jobs)
	for i := range stories { // one a vehicle, in the order of the jobs
		r.Vehicles[i].Story = stories[i]
	}
	return err
}
