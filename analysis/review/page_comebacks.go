package review

import (
	"fmt"

	"plumbline/analysis/quality"
	"plumbline/queries"
)

func (r Review) comebackPage() (page, error) {
	p := page{Lead: []string{"Which vehicles came back after a calibration, how often that happens, and how soon."}}
	if r.About.IsEmpty() {
		return p, nil
	}
	trend, err := r.comebackTrend()
	if err != nil {
		return p, err
	}
	curve, err := r.comebackCurve()
	if err != nil {
		return p, err
	}
	p.Sections = []section{r.returnSection(), trend, curve}
	return p, nil
}

// returnSection lists the month's return visits, or the year's where the month has none.
func (r Review) returnSection() section {
	month := monthName(r.About.Month)
	s := section{ID: "returns", Heading: "Came back in " + month}
	listed, caption := r.Comebacks.Month, "Return visits in "+month
	if len(listed) == 0 {
		s.Says = []string{"No vehicle came back in " + month + "."}
		listed, caption = r.Comebacks.Year, "Return visits in the twelve months to "+month
	} else {
		counted := int64(0)
		for _, back := range listed {
			if back.IsCounted {
				counted++
			}
		}
		n := int64(len(listed))
		s.Says = []string{fmt.Sprintf("%s, of which %s %s. A return counts when the shop names the earlier job itself, when "+
			"the complaint is about a system calibrated then, or when a person confirmed it; a dismissed one does not.",
			sentence(several(n, "return visit", "return visits")), count(counted),
			map[bool]string{true: "is counted as a comeback", false: "are counted as comebacks"}[counted == 1])}
	}
	if len(listed) > 0 {
		s.Table = r.returnTable(caption, listed)
	}
	return s
}

func (r Review) returnTable(caption string, listed []quality.Return) *table {
	t := &table{Caption: caption, Columns: append(append(words("Vehicle and job", "Class", "Counted", "Returned"),
		columns(true, "Days")...), words("Earlier job", "Why it came", "Finding")...)}
	returned := queries.KindNamed("comeback")
	for _, back := range listed {
		job := r.jobCell(quality.Finding{Shop: back.Shop, JobNo: back.JobNo, VIN: back.VIN})
		why := plain(back.Reason)
		if back.Complaint != nil {
			why += ": " + *back.Complaint
		}
		counted := map[bool]string{true: "yes", false: "no"}[back.IsCounted]
		if back.Decision != nil {
			counted += " (" + *back.Decision + ")"
		}
		t.Rows = append(t.Rows, []cell{job, text(returned.ClassTitle(back.Class)), text(counted), text(moment(&back.OpenedAt)),
			number(decimals(back.Days, 0)), text(back.PriorShop + "/" + back.PriorJobNo), text(why), command(back.Finding)})
	}
	return t.cut(r.About.monthCommand("plumbline findings --kind comeback"))
}

func (r Review) comebackTrend() (section, error) {
	points := r.Comebacks.Trend
	s := section{ID: "trend", Heading: "How often, month by month"}
	if len(points) == 0 {
		s.Says = []string{"No calibrated job has been closed yet."}
		return s, nil
	}
	s.Says = trendSays(points, "comeback rate", fmt.Sprintf("A month is followed when %d days have passed since its last job "+
		"was closed; until then it is drawn as an open diamond and never called.", r.About.Scope.WindowDays))
	var err error
	s.Chart, err = controlChart{points: points, unit: "jobs", scale: 100, chart: chart{
		ID: chartID("comebacks", "trend"), Title: trendTitle(points, "The comeback rate"),
		Alt: "Control chart of the comeback rate by month"}}.draw()
	s.Table = trendTable("Comebacks among matured jobs, by month of closing", points, "matured jobs", percentOr)
	s.Notes = []string{commandNote(r.About.allCommand("plumbline trend --outcome comeback"))}
	return s, err
}

func (r Review) comebackCurve() (section, error) {
	s := section{ID: "curve", Heading: "How soon"}
	curve := r.Comebacks.Curve
	if curve == nil || curve.N == 0 {
		s.Says = []string{"No calibrated job has been closed yet."}
		return s, nil
	}
	window := r.About.Scope.WindowDays
	all := steps(*curve)
	last := all[len(all)-1]
	s.Says = []string{fmt.Sprintf("After %d days about %s of the jobs have come back (95\u00a0%% interval %s), estimated from all "+
		"%s calibrated closed jobs, %s of which came back so far. Jobs that could not be followed for the whole time count for as "+
		"long as they were.", window, percent(last.share), between(&last.low, &last.high), count(curve.N), count(curve.Events))}
	var err error
	s.Chart, err = curveChart(chart{ID: chartID("comebacks", "curve"), Alt: "Comeback curve of all jobs",
		Title: fmt.Sprintf("About %s have come back after %d days", percent(last.share), window)}, []quality.Curve{*curve}, window)
	if err != nil {
		return s, err
	}
	s.Table = curveTable([]quality.Curve{*curve}, window)
	return s, r.curveBySource(&s, window)
}

// curveBySource adds the curves by the windshield's source, where there are any.
func (r Review) curveBySource(s *section, window int) error {
	if len(r.Comebacks.BySource) < 2 {
		return nil
	}
	drawn, err := curveChart(chart{ID: chartID("comebacks", "source"), Title: "The comeback curve by glass source",
		Alt: "Comeback curves by the windshield's source"}, r.Comebacks.BySource, window)
	if err != nil {
		return err
	}
	apart, err := curvesApart(r.Comebacks.BySource)
	s.More = append(s.More, block{Heading: "By glass source", Chart: drawn, Table: curveTable(r.Comebacks.BySource, window),
		Says: apart + "Curves drawn apart do not make a cause: the glass page compares like with like and says what the numbers allow."})
	return err
}

// curvesApart says what the log-rank test makes of the curves; nothing where it cannot be made.
func curvesApart(curves []quality.Curve) (string, error) {
	compared, err := quality.LogRank(curves)
	if err != nil || !compared.Test.Defined {
		return "", err
	}
	verdict := "no further apart than chance would set them"
	if compared.Test.P < 0.05 {
		verdict = "further apart than chance would set them"
	}
	return fmt.Sprintf("The curves are %s (log-rank test, p %s). ", verdict, probability(&compared.Test.P)), nil
}

func curveTable(curves []quality.Curve, window int) *table {
	t := &table{Caption: "Share of jobs that have come back", Columns: append(words("Jobs"),
		columns(true, "n", "Came back", "30 days", "60 days", fmt.Sprintf("%d days", window), "95 % interval")...)}
	for _, curve := range curves {
		name := "all"
		if curve.Cohort != "" {
			name = sourceName(curve.Cohort)
		}
		at := func(day int) cell { return number(percent(1 - curve.At(float64(day)))) }
		t.Rows = append(t.Rows, []cell{text(name), number(count(curve.N)), number(count(curve.Events)),
			at(min(30, window)), at(min(60, window)), at(window), number(lastInterval(curve))})
	}
	return t
}

// lastInterval is the interval where a curve ends; without an event there is none.
func lastInterval(curve quality.Curve) string {
	if len(curve.Steps) == 0 || !curve.Steps[len(curve.Steps)-1].HasInterval {
		return "–"
	}
	interval := curve.Steps[len(curve.Steps)-1].Interval
	low, high := 1-interval.High, 1-interval.Low
	return between(&low, &high)
}
