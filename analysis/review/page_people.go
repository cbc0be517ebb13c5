package review

import (
	"fmt"

	"plumbline/analysis/quality"
)

func (r Review) peoplePage() (page, error) {
	p := page{Lead: []string{"Where calibrations go wrong more often than elsewhere: by technician, stand, target board, bay and software, over all " +
		"records up to " + monthName(r.About.Month) + ".",
		"Technicians are shown by their code. A high rate is no judgment of a person: who gets the hard vehicles or the worst stand has " +
			"the high rate. Use it to ask where to look."}}
	if r.About.IsEmpty() {
		return page{Lead: p.Lead[1:]}, nil
	}
	var err error
	if p.Sections, err = r.groupSections("people", r.People.Groups); err != nil {
		return p, err
	}
	onset, err := r.onsetSection()
	if err != nil {
		return p, err
	}
	drift, err := r.driftSection()
	p.Sections = append(p.Sections, onset, drift)
	return p, err
}

// groupSections shows comparisons, a section each: what is called different, funnel, ranking and table.
func (r Review) groupSections(file string, comparisons []quality.Comparison) ([]section, error) {
	var sections []section
	for i, c := range comparisons {
		s := section{ID: fmt.Sprintf("%s-%s", c.By, c.Outcome),
			Heading: fmt.Sprintf("%s by %s", sentence(outcomeNames[c.Outcome]), groupingName(c.By))}
		if len(c.Groups) == 0 {
			s.Says = []string{"No record names a " + groupingName(c.By) + "."}
			sections = append(sections, s)
			continue
		}
		s.Says, s.Points = comparisonSays(c)
		if c.LeftOut > 0 {
			s.Says = append(s.Says, fmt.Sprintf("%s left out, because their record does not name a %s.",
				sentence(several(c.LeftOut, "unit is", "units are")), groupingName(c.By)))
		}
		if err := r.groupCharts(file, c, &s); err != nil {
			return nil, err
		}
		if i == 0 {
			s.Notes = append([]string{funnelNote}, s.Notes...)
		}
		sections = append(sections, s)
	}
	return sections, nil
}

const funnelNote = "How to read it: a group inside the dashed lines lies where 95 % of groups of its size would by chance, inside the " +
	"dotted ones where 99.8 % would. Shrunken: the rate drawn toward all groups' mean, the more the fewer its units."

func (r Review) groupCharts(file string, c quality.Comparison, s *section) error {
	name := c.By + "-" + string(c.Outcome)
	var err error
	s.Table = r.groupTable(s.Heading, c)
	s.Notes = []string{commandNote(r.About.allCommand(fmt.Sprintf("plumbline compare --by %s --outcome %s", c.By, c.Outcome)))}
	s.Chart, err = funnelChart(chart{ID: chartID(file, "funnel-"+name), Title: comparisonTitle(c),
		Alt: "Funnel chart: rate over number of units, with limits of chance"}, c)
	if err != nil || len(c.Groups) < 2 {
		return err
	}
	ranked, err := rankedChart(chart{ID: chartID(file, "ranked-"+name), Title: "The same groups by rate, with their intervals",
		Alt: "Rates with 95 % intervals, the highest on top"}, c)
	s.More = append(s.More, block{Chart: ranked,
		Says: "The longer its line, the less is known of a group; lines that overlap much are not told apart."})
	return err
}
