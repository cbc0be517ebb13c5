package invent

import (
	"fmt"
	"strings"
	"time"

	"plumbline/cmd/scenario/record"
)

// pane is a windshield as the shop bought it.
type pane struct{ source, brand, supplier string }

// newPane chooses a windshield for the vehicle. The source depends on the
// model only; within a model, aftermarket glass is neither better nor worse.
func (g *group) newPane(m *model, at time.Time) *pane {
	p := &pane{source: draw(g.dice, m.glass)}
	switch p.source {
	case "oem":
		p.brand, p.supplier = m.maker, pick(g.dice, "Colmere", "Colmere", "Dunmarrow")
	case "oee":
		p.brand, p.supplier = pick(g.dice, "Halvic", "Orrest", "Senlow"), pick(g.dice, "Vandry", "Colmere")
		if at.After(plantedFrom) && g.chance(plantedShare(m)) {
			p.brand, p.supplier = plantedBrand, plantedSupplier
		}
	case "aftermarket":
		p.brand, p.supplier = pick(g.dice, "Clarivo", "Clarivo", "Pellux", "Norrin"), pick(g.dice, "Vandry", "Vandry", "Quillon", "Dunmarrow")
	case "recycled":
		p.brand, p.supplier = m.maker, "Brackwater Salvage"
	case "original":
		p.brand = m.maker
	}
	return p
}

// plantedShare is the planted supplier's part of the equivalent glass.
func plantedShare(m *model) float64 {
	if m.name == plantedModel {
		return 0.72
	}
	return 0.2
}

// glaze fits the windshield: the record of it, and the moment from which the
// adhesive lets the vehicle be moved.
func (s *stay) glaze() {
	p := s.g.newPane(s.car.model, s.now)
	if s.why.replacesBadGlass {
		p = &pane{source: "oem", brand: s.car.model.maker, supplier: "Colmere"}
	}
	s.car.pane = p
	s.pass(s.minutes(35, 80))
	s.now = onMinute(s.now)
	driveAway := s.driveAway()
	s.v.Glass = append(s.v.Glass, record.Glass{
		Position: "windshield", Source: p.source, Brand: s.spelled(p.brand), PartNo: s.partNo(p), Supplier: s.spelled(p.supplier),
		Bracket: s.bracket(p), InstalledAt: s.now, DriveAwayMin: driveAway, Installer: s.shop.people[s.IntN(len(s.shop.people))].code,
	})
	s.curedAt = s.now.Add(time.Duration(driveAway) * time.Minute)
	s.waitForAdhesive()
}

// waitForAdhesive lets the clock run to the safe drive-away time. Now and then
// somebody cannot wait.
func (s *stay) waitForAdhesive() {
	if s.chance(0.006) {
		s.now = s.now.Add(s.minutes(8, 24))
		return
	}
	s.now = s.curedAt.Add(s.minutes(3, 40))
}

// driveAway is what the adhesive maker's sheet gives, longer in the cold.
func (s *stay) driveAway() int {
	if month := s.now.Month(); month == time.December || month <= time.February {
		return pick(s.dice, 60, 60, 120, 120, 180)
	}
	return pick(s.dice, 30, 60, 60, 60, 120)
}

func (s *stay) partNo(p *pane) string {
	if p.source == "recycled" || p.source == "unknown" || s.chance(0.06) {
		return ""
	}
	name := s.car.model.name
	if p.source == "oem" || p.source == "original" {
		return fmt.Sprintf("%s-%02d-%s", strings.ToUpper(name[:3]), s.car.year%100, pick(s.dice, "801A", "801B", "803A"))
	}
	return fmt.Sprintf("%s%s%04d", strings.ToUpper(p.brand[:2]), strings.ToUpper(name[:2]), 1000+7*s.car.year%900)
}

func (s *stay) bracket(p *pane) string {
	switch {
	case !s.car.camera || s.chance(0.03):
		return ""
	case p.source == "oem" || p.source == "recycled" || p.source == "original":
		return "integral"
	case p.source == "oee":
		return pick(s.dice, "integral", "integral", "new_bonded")
	default:
		return pick(s.dice, "integral", "transferred", "new_bonded")
	}
}

// otherPane fits a pane that no camera looks through.
func (s *stay) otherPane() {
	maker := pick(s.dice, "oem", "aftermarket", "recycled")
	supplier := map[string]string{"oem": "Colmere", "aftermarket": "Quillon", "recycled": "Brackwater Salvage"}[maker]
	s.pass(s.minutes(40, 120))
	s.now = onMinute(s.now)
	s.v.Glass = append(s.v.Glass, record.Glass{
		Position: pick(s.dice, "rear_window", "front_door", "rear_door", "quarter", "roof"), Source: maker, Supplier: supplier,
		InstalledAt: s.now, Installer: s.lead.code,
	})
}

// spelled lets a name through as it is, now and then in capitals.
func (s *stay) spelled(name string) string {
	if s.chance(0.03) {
		return strings.ToUpper(name)
	}
	return name
}
