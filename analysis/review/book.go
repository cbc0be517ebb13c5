package review

import (
	"context"
	"fmt"
	"slices"

	"plumbline/analysis/answer"
	"plumbline/analysis/exhibit"
	"plumbline/analysis/exhibit/workbook"
	"plumbline/analysis/quality"
)

// WriteWorkbook writes a review as one workbook for people who work in spreadsheets: the exhibits of the pages, with a
// live formula behind every rate, native charts, filters, real dates and numbers. It is the same to the byte for the
// same review.
func WriteWorkbook(ctx context.Context, r Review, path string) error {
	content, err := workbookBytes(ctx, r, 0)
	if err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	return writeFile(path, content)
}

// workbookBytes makes the workbook; limit is the most rows that a sheet may have, 0: as many as the format holds.
func workbookBytes(ctx context.Context, r Review, limit int) ([]byte, error) {
	exhibits, err := r.sheets()
	if err != nil {
		return nil, err
	}
	return workbook.Bytes(ctx, workbook.Book{Title: r.About.Title(), AsOf: r.About.Scope.AsOf, Cover: r.coverLines(), Exhibits: exhibits, Limit: limit})
}

// sheets are the exhibits of the workbook, in its order: the pages', and what only a workbook shows.
func (r Review) sheets() ([]exhibit.Exhibit, error) {
	if r.About.IsEmpty() {
		data, err := r.data()
		return append(data, answer.DefinitionSheet()), err
	}
	var all []exhibit.Exhibit
	for _, part := range []func(Review) ([]exhibit.Exhibit, error){Review.summary, Review.comebacks, Review.curveSheets, Review.repeats, Review.scans, Review.glassSheets,
		Review.rows, Review.groupSheets, Review.actions, Review.evidence, Review.listSheets, Review.data} {
		exhibits, err := part(r)
		if err != nil {
			return nil, err
		}
		all = append(all, exhibits...)
	}
	return append(all, answer.DefinitionSheet()), nil
}

func (r Review) summary() ([]exhibit.Exhibit, error) {
	said, err := r.month().Sentences()
	if err != nil {
		return nil, err
	}
	least, err := r.leastSeen()
	var charts []exhibit.Exhibit
	for _, t := range r.trends() {
		charts = append(charts, t.Exhibit(r.About))
	}
	return []exhibit.Exhibit{answer.Summary(r.About, said, r.Figures, r.Failures.Rework, charts),
		answer.StandingSheet(r.About, r.Standing, r.pageOf, least), answer.DecisionSheet(r.About, r.Undecided, r.linker())}, err
}

func (r Review) trends() []answer.Trend {
	return []answer.Trend{{Outcome: quality.NotFirstPass, Points: r.Failures.Trend}, {Outcome: quality.Comeback, Points: r.Comebacks.Trend},
		{Outcome: quality.PostScanFault, Points: r.Scans.Share}, {Outcome: quality.OpenFaults, Points: r.Scans.PerJob}}
}

func (r Review) curveSheets() ([]exhibit.Exhibit, error) {
	return answer.CurveSheets(r.About, r.Comebacks.Curve, r.Comebacks.BySource)
}

func (r Review) glassSheets() ([]exhibit.Exhibit, error) {
	return answer.GlassSheets(r.About, r.Glass.Strata, r.Glass.Answers), nil
}

func (r Review) groupSheets() ([]exhibit.Exhibit, error) {
	return []exhibit.Exhibit{answer.Groups(r.About, slices.Concat(r.People.Groups, r.Groups, r.Glass.Groups)), answer.OnsetSheet(r.About, r.People.Onsets),
		answer.DriftSheet(r.People.Drifts)}, nil
}

func (r Review) listSheets() ([]exhibit.Exhibit, error) {
	return []exhibit.Exhibit{answer.FindingSheet(r.About, r.Findings, r.linker())}, nil
}

func (r Review) coverLines() []workbook.Line {
	about := r.About
	lines := []workbook.Line{{Label: "Caution", Value: caution, Type: exhibit.Prose}}
	if about.IsEmpty() {
		lines = append(lines, workbook.Line{Label: "Month", Type: exhibit.Prose, Value: "The history holds no calibration, scan or closed job yet, so there is nothing to review. " +
			"Import the shop's records first: plumbline import FILE…"})
	} else {
		lines = append(lines, workbook.Line{Label: "Month", Value: about.From, Type: exhibit.Month})
	}
	return append(lines, workbook.Line{Label: "As of", Value: about.Scope.AsOf, Type: exhibit.Moment},
		workbook.Line{Label: "Comeback window, days", Value: int64(about.Scope.WindowDays), Type: exhibit.Count},
		workbook.Line{Label: "Filters", Value: answer.FilterWords(about.Filter)}, workbook.Line{Label: "Shops", Value: about.Scope.Shops, Type: exhibit.Prose},
		workbook.Line{Label: "Jobs on record", Value: about.Scope.Jobs, Type: exhibit.Count},
		workbook.Line{Label: "of these, calibrated", Value: about.Scope.Calibrated, Type: exhibit.Count},
		workbook.Line{Label: "Records begin", Value: about.Scope.FirstOpened, Type: exhibit.Moment},
		workbook.Line{Label: "Made with", Value: "plumbline " + about.Version})
}
