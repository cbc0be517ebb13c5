package review

import (
	"fmt"
	"strings"
)

// A page is one file of the review.
type page struct {
	File     string // "comebacks.html", "vehicles/….html"
	Title    string
	Lead     []string // what the page says, before any number
	Sections []section
	About    About
	Nav      []navigation
	Template string // "sections", or one of its own
	Body     any    // what a page of its own shows
}

// Root leads from the page back to the review's folder.
func (p page) Root() string { return strings.Repeat("../", strings.Count(p.File, "/")) }

// HasChart reports whether the page needs the chart script.
func (p page) HasChart() bool {
	for _, s := range p.Sections {
		if s.Chart != nil {
			return true
		}
		for _, more := range s.More {
			if more.Chart != nil {
				return true
			}
		}
	}
	body, ok := p.Body.(opening)
	return ok && body.hasChart()
}

type navigation struct{ File, Name string }

// navigations are the pages that every page leads to, in this order.
var navigations = []navigation{
	{"index.html", "The month"}, {"comebacks.html", "Comebacks"}, {"repeats.html", "Repeats and failures"},
	{"post-scan-faults.html", "Post-scan faults"}, {"glass.html", "Glass source"},
	{"people-and-equipment.html", "People and equipment"}, {"evidence.html", "Evidence gaps"},
	{"data-quality.html", "Data quality"}, {"definitions.html", "Definitions"},
}

// pages puts the whole review together.
func (r Review) pages() ([]page, error) {
	builders := []func(Review) (page, error){
		Review.indexPage, Review.comebackPage, Review.failurePage, Review.scanPage, Review.glassPage, Review.peoplePage,
		Review.evidencePage, Review.dataPage, Review.definitionPage,
	}
	var all []page
	for i, build := range builders {
		p := page{}
		var err error
		if p, err = build(r); err != nil {
			return nil, fmt.Errorf("page %s: %w", navigations[i].File, err)
		}
		p.File = navigations[i].File
		if p.Title == "" {
			p.Title = navigations[i].Name
		}
		all = append(all, p)
	}
	for _, vehicle := range r.Vehicles {
		all = append(all, r.vehiclePage(vehicle))
	}
	for i := range all {
		all[i].About, all[i].Nav = r.About, navigations
		if all[i].Template == "" {
			all[i].Template = "sections"
		}
	}
	return all, nil
}

// chartID is made of the page's and the chart's names alone, so that it is the same every time.
func chartID(page, name string) string {
	return "chart-" + page + "-" + strings.ToLower(strings.NewReplacer("_", "-", " ", "-").Replace(name))
}
