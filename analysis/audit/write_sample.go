package audit

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/audit/sample"
)

// sampleColumns are those of the work sheet: a column for each thing to look at.
func sampleColumns(things []policy.Lack) []record.Column {
	columns := []record.Column{
		{Name: "shop", Meaning: "the shop's identifier"},
		{Name: "job_no", Meaning: "its repair-order number"},
		identityColumns[0], identityColumns[1],
		{Name: "place", Meaning: "in the order of the draw"},
		{Name: "drawn_for", Meaning: "plan | discovery, or both"},
		{Name: "drawn_by", Meaning: "SHA-256 of the seed, a vertical bar, the shop, a slash and the job number"},
	}
	for _, thing := range things {
		columns = append(columns, record.Column{Name: strings.TrimSuffix(thing.What+"_"+thing.Subject, "_"),
			Meaning: "for the inspector: " + thing.Words() + "; missing where the record lacks it already"})
	}
	return append(columns,
		record.Column{Name: "good", Meaning: "for the inspector"},
		record.Column{Name: "bad", Meaning: "for the inspector"},
		record.Column{Name: "what_was_found", Meaning: "for the inspector"})
}

// looked says of each drawn job which of the things its record lacks already.
func (b *making) looked(things []policy.Lack) map[record.Job][]string {
	looked := map[record.Job][]string{}
	for _, job := range b.sample.Jobs {
		looked[job.Job] = make([]string, len(things))
	}
	for _, l := range b.lacks {
		if row, isDrawn := looked[l.job]; isDrawn {
			row[slices.Index(things, l.thing)] = "missing"
		}
	}
	return looked
}

// writeSample writes the drawn jobs as a page to print, as CSV and as a sheet.
func (b *making) writeSample() error {
	if b.sample == nil {
		return nil
	}
	things := b.o.Policy.Things()
	columns, looked := sampleColumns(things), b.looked(things)
	file, err := createCSV(b.path("csv/sample.csv"), columns)
	if err != nil {
		return err
	}
	sheet, err := b.book.sheet("sample", columns)
	if err != nil {
		file.file.Close()
		return err
	}
	for _, job := range b.sample.Jobs {
		known := b.known[job.Job]
		row := []any{job.Job.Shop, job.Job.JobNo, known.vin, known.claim, job.Place, job.DrawnFor(), job.Digest}
		for _, cell := range looked[job.Job] {
			row = append(row, cell)
		}
		row = append(row, nil, nil, nil)
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
	return b.writeWorkSheet(things, looked)
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
	Things                 []string
	Jobs                   []workLine
}

type (
	turningLine struct {
		Bad           int64
		Share, Chance string
	}
	workLine struct {
		jobLine
		Place  int64
		For    string
		Looked []string
	}
)

func (b *making) writeWorkSheet(things []policy.Lack, looked map[record.Job][]string) error {
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
	for _, thing := range things {
		page.Things = append(page.Things, thing.Words())
	}
	for _, job := range s.Jobs {
		page.Jobs = append(page.Jobs, workLine{b.jobLine(job.Job), job.Place, job.DrawnFor(), looked[job.Job]})
	}
	return b.page("sample.html", page)
}

// plainPercent writes a share that a person gave, with the digits that it was given with.
func plainPercent(share float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.4f", 100*share), "0"), ".") + " %"
}
