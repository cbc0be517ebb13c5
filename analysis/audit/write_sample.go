package audit

import (
	"fmt"
	"html/template"
	"strings"
)

var sampleColumns = []column{
	{"shop", "the shop's identifier"},
	{"job_no", "its repair-order number"},
	{"place", "in the order of the draw"},
	{"drawn_for", "plan | discovery, or both"},
	{"drawn_by", "SHA-256 of the seed, a vertical bar, the shop, a slash and the job number"},
	{"good", "for the inspector"},
	{"bad", "for the inspector"},
	{"what_was_found", "for the inspector"},
}

// writeSample writes the drawn jobs as a page to print, as CSV and as a sheet.
func (b *making) writeSample() error {
	if b.sample == nil {
		return nil
	}
	file, err := createCSV(b.path("csv/sample.csv"), sampleColumns)
	if err != nil {
		return err
	}
	sheet, err := b.book.sheet("sample", sampleColumns)
	if err != nil {
		file.file.Close()
		return err
	}
	for _, job := range b.sample.Jobs {
		row := []any{job.Job.shop, job.Job.jobNo, job.Place, job.drawnFor(), job.Digest, nil, nil, nil}
		if err := file.write(csvLine(fields(row))); err != nil {
			file.file.Close()
			return err
		}
		if err := sheet.write(row); err != nil {
			file.file.Close()
			return err
		}
	}
	if err := file.close(); err != nil {
		return err
	}
	if err := sheet.finish(); err != nil {
		return err
	}
	return b.writeWorkSheet()
}

func (j DrawnJob) drawnFor() string {
	var list []string
	if j.InPlan {
		list = append(list, "plan")
	}
	if j.InDisc {
		list = append(list, "discovery")
	}
	return strings.Join(list, ", ")
}

type samplePage struct {
	Style                  template.CSS
	Insurer, Seed          string
	Lot                    int64
	Level, AQL, Inspection string
	Plan                   *Plan
	Curve                  template.HTML
	Turning                []turningLine
	Discovery              *DiscoverySample
	Share, Sure            string
	Jobs                   []workLine
}

type (
	turningLine struct {
		Bad           int64
		Share, Chance string
	}
	workLine struct {
		Place            int64
		Shop, JobNo, For string
	}
)

func (b *making) writeWorkSheet() error {
	s := b.sample
	page := samplePage{Style: style(), Insurer: visible(b.insurer), Seed: visible(s.Seed), Lot: s.Lot,
		Level: s.Request.level(), AQL: s.Request.AQL, Inspection: string(s.Request.severity()),
		Plan: s.Plan, Discovery: s.Discovery}
	if s.Plan != nil {
		curve, err := s.Plan.characteristic()
		if err != nil {
			return err
		}
		page.Curve = template.HTML(drawCurve(curve, "Chance that the lot is accepted, by its share of bad jobs"))
		for _, point := range turning(curve) {
			page.Turning = append(page.Turning,
				turningLine{point.Bad, percent(point.Bad, s.Lot), fmt.Sprintf("%.1f %%", 100*point.Chance)})
		}
	}
	if s.Discovery != nil {
		page.Share, page.Sure = plainPercent(s.Discovery.Share), plainPercent(s.Discovery.Sure)
	}
	for _, job := range s.Jobs {
		page.Jobs = append(page.Jobs, workLine{job.Place, visible(job.Job.shop), visible(job.Job.jobNo), job.drawnFor()})
	}
	return b.page("sample.html", page)
}

// plainPercent writes a share that a person gave, with the digits that it was given with.
func plainPercent(share float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.4f", 100*share), "0"), ".") + " %"
}
