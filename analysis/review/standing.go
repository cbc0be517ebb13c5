package review

import (
	"slices"
	"strings"

	"plumbline/analysis/answer"
	"plumbline/analysis/exhibit"
	"plumbline/analysis/quality"
)

// standing asks what stands out; of one shop's review only what is that shop's own.
func (g *gathering) standing(r *Review) error {
	things, err := quality.Standouts(g.ctx, g.h, r.About.Month)
	if shop := g.o.Filter.Shop; shop != "" {
		things = slices.DeleteFunc(things, func(s quality.Standout) bool { return s.Group != shop && !strings.HasPrefix(s.Group, shop+"/") })
	}
	r.Standing = things
	return err
}

func (g *gathering) summaries(r *Review) error {
	r.Summaries = map[string][]quality.GroupSummary{}
	for _, by := range quality.SummaryGroupings {
		rows, err := quality.Summaries(g.ctx, g.h, by, g.year)
		if err != nil {
			return err
		}
		r.Summaries[by] = rows
	}
	return nil
}

// again reads what the work done again goes back to.
func (g *gathering) again(r *Review) error {
	r.Failures.Causes = map[string][]quality.ReworkCause{}
	for _, by := range answer.ReworkGroupings {
		causes, err := quality.ReworkBy(g.ctx, g.h, by, g.year)
		if err != nil {
			return err
		}
		r.Failures.Causes[by] = causes
	}
	var err error
	r.Failures.Again, err = quality.ReworkAttempts(g.ctx, g.h, g.year)
	return err
}

// standing is what stands out, with a way to the page behind each thing.
func (r Review) standing() (exhibit.Exhibit, error) {
	least, err := r.leastSeen()
	return answer.Standing(r.About, r.Standing, r.pageOf, least), err
}

// leastSeen says how large a thing would have had to be to be seen, by the example of the stands.
func (r Review) leastSeen() (string, error) {
	for _, c := range r.People.Groups {
		if c.By == "equipment" {
			return answer.LeastSeen(c)
		}
	}
	return "", nil
}

// outcomePages are where an outcome is told of.
var outcomePages = map[quality.Outcome]string{quality.NotFirstPass: "repeats.html#trend", quality.Comeback: "comebacks.html#comeback-trend",
	quality.PostScanFault: "post-scan-faults.html#share", quality.OpenFaults: "post-scan-faults.html#per-job"}

// pageOf leads to the page behind a thing that stands out.
func (r Review) pageOf(s quality.Standout) string {
	switch s.Kind {
	case quality.StandoutSignal:
		return outcomePages[quality.Outcome(s.Outcome)]
	case quality.StandoutGlass:
		return "glass.html#glass-" + strings.ReplaceAll(s.Outcome, "_", "-")
	case quality.StandoutGap:
		return "evidence.html#shops"
	}
	if page := r.subjectLinker()(s.Grouping, s.Group); page != "" {
		return page
	}
	switch s.Grouping {
	case "shop", "insurer":
		return "shops-and-insurers.html#by-" + s.Grouping
	case "supplier", "brand":
		return "glass.html#" + s.Grouping + "-" + strings.ReplaceAll(s.Outcome, "_", "-")
	case "software_version":
		return "people-and-equipment.html#software-version-not-first-pass"
	case "model":
		return outcomePages[quality.Outcome(s.Outcome)]
	}
	return "people-and-equipment.html#" + s.Grouping + "-not-first-pass"
}
