package audit

import (
	"fmt"
	"html/template"
	"strings"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/audit/sample"
)

var sampleColumns = []record.Column{
	{Name: "shop", Meaning: "the shop's identifier"},
	{Name: "job_no", Meaning: "its repair-order number"},
	{Name: "place", Meaning: "in the order of the draw"},
	{Name: "drawn_for", Meaning: "plan | discovery, or both"},
	{Name: "drawn_by", Meaning: "SHA-256 of the seed, a vertical bar, the shop, a slash and the job number"},
	{Name: "good", Meaning: "for the inspector"},
	{Name: "bad", Meaning: "for the inspector"},
	{Name: "what_was_found", Meaning: "for the inspector"},
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
		row := []any{job.Job.Shop, job.Job.JobNo, job.Place, job.DrawnFor(), job.Digest, nil, nil, nil}
		if err := file.write(record.Line(fields(row))); err != nil {
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

type samplePage struct {
	Style                  template.CSS
	Insurer, Seed          string
	Lot                    int64
	Level, AQL, Inspection string
	Plan                   *sample.Plan
	Curve                  template.HTML
	Turning                []turningLine
	Discovery              *sample.Discovery
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
	page := samplePage{Style: style(), Insurer: record.Visible(b.insurer), Seed: record.Visible(s.Seed), Lot: s.Lot,
		Level: s.Request.AtLevel(), AQL: s.Request.AQL, Inspection: string(s.Request.Inspection()),
		Plan: s.Plan, Discovery: s.Discovery}
	if s.Plan != nil {
		curve, err := s.Plan.Characteristic()
		if err != nil {
			return err
		}
		page.Curve = template.HTML(sample.DrawCurve(curve, "Chance that the lot is accepted, by its share of bad jobs"))
		for _, point := range sample.Turning(curve) {
			page.Turning = append(page.Turning,
				turningLine{point.Bad, percent(point.Bad, s.Lot), fmt.Sprintf("%.1f %%", 100*point.Chance)})
		}
	}
	if s.Discovery != nil {
		page.Share, page.Sure = plainPercent(s.Discovery.Share), plainPercent(s.Discovery.Sure)
	}
	for _, job := range s.Jobs {
		page.Jobs = append(page.Jobs, workLine{job.Place, record.Visible(job.Job.Shop), record.Visible(job.Job.JobNo), job.DrawnFor()})
	}
	return b.page("sample.html", page)
}

// plainPercent writes a share that a person gave, with the digits that it was given with.
func plainPercent(share float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.4f", 100*share), "0"), ".") + " %"
}
