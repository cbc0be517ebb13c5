package review

import (
	"time"

	"plumbline/analysis/quality"
)

// mostVehicles is how many vehicles have a page of their own: a month of a large group of shops can flag thousands.
const mostVehicles = 200

// vehicles gathers the findings and the story of each vehicle that a finding of high severity is about.
func (g *gathering) vehicles(r *Review) error {
	found, err := g.found()
	if err != nil {
		return err
	}
	places := map[string]int{} // page name to place in r.Vehicles
	for _, finding := range found {
		page := vehiclePage(finding)
		if _, known := places[page]; known || finding.Severity != "high" {
			continue
		}
		r.Flagged++
		if len(r.Vehicles) < mostVehicles {
			places[page] = len(r.Vehicles)
			r.Vehicles = append(r.Vehicles, Vehicle{Page: page, VIN: finding.VIN, Shop: finding.Shop, JobNo: finding.JobNo})
		}
	}
	for _, finding := range found {
		if place, known := places[vehiclePage(finding)]; known {
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

// moment writes a time as the shop's wall clock showed it.
func moment(t *time.Time) string {
	if t == nil {
		return ""
	}
	return t.Format("2006-01-02 15:04")
}
