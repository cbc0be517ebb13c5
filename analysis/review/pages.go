package review

import (
	"fmt"
	"slices"

	"plumbline/analysis/answer"
	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/page"
	"plumbline/analysis/quality"
	"plumbline/queries"
)

// A leaf is one page of the review: what it is of, and its exhibits.
type leaf struct {
	file, name string
	lead       []string
	exhibits   func(Review) ([]exhibit.Exhibit, error)
}

// leaves are the pages between the opening one and the vehicles', in the order of the navigation.
var leaves = []leaf{
	{"index.html", "The month", nil, nil},
	{answer.PeoplePage, "By person", []string{"What waits for a decision, a list for each person to take to a meeting: printed, everyone's begins on a new sheet."}, Review.byPerson},
	{"comebacks.html", "Comebacks", []string{"Which vehicles came back after a calibration, how often that happens, and how soon."}, Review.comebacks},
	{"repeats.html", "Repeats and failures", []string{"Which calibrations did not pass the first time, on which systems, and what was left unfinished."}, Review.repeats},
	{"post-scan-faults.html", "Post-scan faults", []string{"Which trouble codes were still open when the vehicle was scanned after calibration, which were new, and " +
		"which were cleared.", "A stored code is shown in the counts and never flagged. A vehicle with an open fault in a system that brakes or steers is not to be " +
		"handed over on the strength of a report."}, Review.scans},
	{"glass.html", "Glass source", []string{"Does it matter which windshield was fitted? Front-camera calibrations after a windshield, each source beside the vehicle " +
		"maker's own part (OEM; OEE is a part equivalent to it).", "What follows are associations, not causes. Different vehicles get different glass; comparing within the same " +
		"make and model takes that out, and leaves out what the records do not hold."}, Review.glass},
	{"people-and-equipment.html", "People and equipment", []string{"Where calibrations go wrong more often than elsewhere: by technician, stand, target board, bay and " +
		"software, over all records up to the month's end.", "Technicians are shown by their code. A high rate is no judgment of a person: who gets the hard vehicles or the " +
		"worst stand has the high rate. Each is compared with the others in like work; use it to ask where to look."}, Review.people},
	{"shops-and-insurers.html", "Shops and insurers", []string{"One row each: jobs, first pass, comebacks, faults left, gaps and rework, over twelve months."}, Review.rows},
	{"actions.html", "Actions", []string{"What was done about quality, and whether it helped."}, Review.actions},
	{"evidence.html", "Evidence gaps", []string{"Would the record stand up if someone asked for it? What is missing, out of order or hard to believe.",
		"A gap in the record is not proof that the work was not done. Readings that repeat can be honest; they are worth a question."}, Review.evidence},
	{"data-quality.html", "Data quality", []string{"How good the records are that everything else rests on. Nothing here is a fault of a vehicle."}, Review.data},
	{"definitions.html", "Definitions", []string{"What each figure means, how it is worked out, and where the method comes from."}, nil},
}

// pages puts the whole review together.
func (r Review) pages() ([]page.Page, error) {
	opening, err := r.opening()
	if err != nil {
		return nil, err
	}
	definitions, err := definitionPage()
	if err != nil {
		return nil, err
	}
	all := []page.Page{opening}
	for _, l := range leaves[1 : len(leaves)-1] {
		p := page.Page{File: l.file, Title: l.name, Lead: l.lead}
		if !r.About.IsEmpty() || l.file == "data-quality.html" && r.About.Scope.AsOf != nil {
			exhibits, err := l.exhibits(r)
			if err != nil {
				return nil, fmt.Errorf("page %s: %w", l.file, err)
			}
			p.Sections = page.Of(exhibits...)
		}
		all = append(all, p)
	}
	all = append(all, definitions)
	for _, vehicle := range r.Vehicles {
		p, err := r.vehiclePage(vehicle)
		if err != nil {
			return nil, err
		}
		all = append(all, p)
	}
	for _, subject := range r.Subjects {
		all = append(all, r.subjectPage(subject))
	}
	around := frame(r.About, navigation())
	for i := range all {
		all[i].Frame = around
	}
	return all, nil
}

func (r Review) byPerson() ([]exhibit.Exhibit, error) {
	return answer.ByPerson(r.About, slices.Concat(r.Decisions, r.earlier()), r.linker()), nil
}

func (r Review) comebacks() ([]exhibit.Exhibit, error) {
	curve, err := answer.Curve(r.About, r.Comebacks.Curve, r.Comebacks.BySource)
	return []exhibit.Exhibit{answer.Returns(r.About, r.Comebacks.Month, r.Comebacks.Year, r.linker()),
		answer.Trend{Outcome: quality.Comeback, Points: r.Comebacks.Trend}.Exhibit(r.About), curve, r.found("comebacks", "Other findings of the month", "comeback")}, err
}

func (r Review) repeats() ([]exhibit.Exhibit, error) {
	f := r.Failures
	return []exhibit.Exhibit{answer.Trend{Outcome: quality.NotFirstPass, Points: f.Trend}.Exhibit(r.About),
		answer.Systems(r.About, f.Systems, f.SystemsBefore), answer.FailureCodes(r.About, f.Codes), answer.Changed(r.About, f.Changes),
		answer.Waits(r.About, f.Waits), answer.Clock(f.Hours, f.Weekdays), answer.Rework(r.About, f.Rework),
		answer.ReworkCauses(r.About, f.Causes, f.Again, r.linker()), r.found("repeats", "Findings of the month")}, nil
}

func (r Review) scans() ([]exhibit.Exhibit, error) {
	if len(r.Scans.Months) == 0 {
		return []exhibit.Exhibit{{Name: "none", Title: "No scans", Says: []string{"No calibrated job has a scan after calibration."}},
			r.found("post-scan-faults", "Open faults of the month")}, nil
	}
	return []exhibit.Exhibit{answer.ScanFlow(r.About, r.Scans.Months), answer.Trend{Outcome: quality.PostScanFault, Points: r.Scans.Share}.Exhibit(r.About),
		answer.Trend{Outcome: quality.OpenFaults, Points: r.Scans.PerJob}.Exhibit(r.About), answer.Modules(r.About, r.Scans.Year),
		r.found("post-scan-faults", "Open faults of the month")}, nil
}

func (r Review) hasGlass() bool {
	return slices.ContainsFunc(r.Glass.Answers, func(a answer.GlassAnswer) bool { return a.N > 0 || a.ReferenceN > 0 })
}

func (r Review) glass() ([]exhibit.Exhibit, error) {
	if !r.hasGlass() {
		return []exhibit.Exhibit{{Name: "none", Title: "No glass to compare", Says: []string{"No front-camera calibration follows a windshield whose source is on record."}}}, nil
	}
	var all []exhibit.Exhibit
	for _, outcome := range quality.Outcomes {
		all = append(all, answer.Glass(r.About, outcome, r.Glass.Answers))
	}
	groups, err := r.compared(r.Glass.Groups)
	return append(all, groups...), err
}

func (r Review) people() ([]exhibit.Exhibit, error) {
	p := r.People
	all, err := r.compared(p.Groups)
	return append(all, answer.Onsets(r.About, p.Onsets, p.Rates, p.TooMany, mostOnsets),
		answer.Drifts(r.About, p.Drifts, p.Series, slices.Contains(p.TooMany, "equipment"), mostOnsets)), err
}

func (r Review) rows() ([]exhibit.Exhibit, error) {
	var all []exhibit.Exhibit
	for _, by := range quality.SummaryGroupings {
		all = append(all, answer.GroupRows(r.About, by, r.Summaries[by]))
	}
	return all, nil
}

func (r Review) compared(comparisons []quality.Comparison) ([]exhibit.Exhibit, error) {
	var all []exhibit.Exhibit
	for _, c := range comparisons {
		e, err := answer.Compare(r.About, c, r.subjectLinker())
		if err != nil {
			return nil, err
		}
		all = append(all, e)
	}
	return all, nil
}

func (r Review) evidence() ([]exhibit.Exhibit, error) {
	var all []exhibit.Exhibit
	if r.Evidence.Completeness != nil {
		all = append(all, r.Evidence.Completeness.Exhibit(r.About))
	}
	all = append(all, answer.Gaps(r.About, r.Evidence.Tallies), answer.GapsByShop(r.About, r.Evidence.ByShop))
	for _, kind := range queries.OnPage("evidence") {
		found := r.ofKinds(kind.Name)
		if len(found) == 0 {
			continue
		}
		e := answer.Findings(r.About, kind.Name, kind.Title, found, []string{kind.Name}, r.linker())
		e.Says = append([]string{kind.Means}, e.Says...)
		all = append(all, e)
	}
	return append(all, answer.Digits(r.About, r.Evidence.Digits)), nil
}

func (r Review) data() ([]exhibit.Exhibit, error) {
	d := r.Data
	return []exhibit.Exhibit{answer.Marks(d.Marks), answer.Clocks(d.Clocks), answer.Names(d.Names), answer.LeftOut(d.LeftOut), answer.Rejects(d.Rejects), answer.Imports(d.Balances)}, nil
}

// found lists the month's findings of the kinds that a page shows, but for those that it shows otherwise.
func (r Review) found(file, title string, but ...string) exhibit.Exhibit {
	kinds := slices.DeleteFunc(queries.Names(queries.OnPage(file)), func(kind string) bool { return slices.Contains(but, kind) })
	return answer.Findings(r.About, "findings", title, r.ofKinds(kinds...), kinds, r.linker())
}

// ofKinds picks the month's findings of some kinds, in their order.
func (r Review) ofKinds(kinds ...string) []quality.Finding {
	return slices.DeleteFunc(slices.Clone(r.Findings), func(f quality.Finding) bool { return !slices.Contains(kinds, f.Kind) })
}

// linker leads to the page of a vehicle where it has one.
func (r Review) linker() answer.Linker {
	pages := map[string]bool{}
	for _, vehicle := range r.Vehicles {
		pages[vehicle.Page] = true
	}
	return func(shop, jobNo string, vin *string) string {
		if name := vehiclePage(shop, jobNo, vin); pages[name] {
			return "vehicles/" + name
		}
		return ""
	}
}

// definitionPage says what each figure means.
func definitionPage() (page.Page, error) {
	last := leaves[len(leaves)-1]
	p := page.Page{File: last.file, Title: last.name, Lead: last.lead}
	markup, err := markupOf("definitions.html", answer.Definitions())
	p.Sections = []page.Section{{Markup: markup}}
	return p, err
}
