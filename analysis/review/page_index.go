package review

import (
	"fmt"

	"plumbline/analysis/quality"
)

// An opening is what the first page shows besides its sections.
type opening struct {
	Sentences []string
	Cards     []card
	Decisions []decisionBlock
	Flagged   string // where not every flagged vehicle has a page
}

func (o opening) hasChart() bool {
	for _, c := range o.Cards {
		if c.Chart != nil {
			return true
		}
	}
	return false
}

// A card is one of the month's figures.
type card struct {
	Name   string
	Value  string
	Of     string // its n and what it is of
	Range  string // uncertainty
	Before string
	Says   string
	Chart  *chart
	Table  *table
	Page   string
}

// A decisionBlock is what waits for the same decision.
type decisionBlock struct {
	Heading string
	Why     string
	Waiting string
	Page    string
	Rows    []decisionRow
	Rest    string
}

type decisionRow struct {
	Job     cell
	What    string
	When    string
	Trace   string
	Confirm string
}

// mostDecisions is how many findings the opening page shows under one heading; the section's page has them all.
const mostDecisions = 6

func (r Review) indexPage() (page, error) {
	if r.About.IsEmpty() {
		return page{Title: "Quality review", Lead: []string{
			"The history holds no calibration, scan or closed job yet, so there is nothing to review.",
			"Import the shop's records first: plumbline import FILE…"}}, nil
	}
	p := page{Title: "Quality review of " + monthName(r.About.Month), Template: "opening"}
	body := opening{}
	var err error
	if body.Sentences, err = monthSentences(r); err != nil {
		return p, err
	}
	if body.Cards, err = r.cards(); err != nil {
		return p, err
	}
	for _, group := range r.Decisions {
		body.Decisions = append(body.Decisions, r.decisionBlock(group))
	}
	if r.Flagged > int64(len(r.Vehicles)) {
		body.Flagged = fmt.Sprintf("%s have a finding of high severity; the latest %s have a page of their own. plumbline trace tells the "+
			"story of any other.", several(r.Flagged, "vehicle", "vehicles"), count(int64(len(r.Vehicles))))
	}
	p.Body = body
	return p, nil
}

func (r Review) decisionBlock(group Consequence) decisionBlock {
	n := int64(len(group.Findings))
	block := decisionBlock{Heading: group.Heading, Why: group.Why, Page: group.Page,
		Waiting: several(n, "finding waits", "findings wait")}
	if group.Decided > 0 {
		block.Waiting += fmt.Sprintf(", %s decided already", count(group.Decided))
	}
	for i, finding := range group.Findings {
		if i == mostDecisions {
			block.Rest = fmt.Sprintf("and %s more", count(n-mostDecisions))
			break
		}
		block.Rows = append(block.Rows, r.decisionRow(finding))
	}
	return block
}

func (r Review) decisionRow(f quality.Finding) decisionRow {
	row := decisionRow{Job: r.jobCell(f), When: moment(f.At), What: subjectOf(f),
		Trace:   "plumbline trace " + argument(f.Shop+"/"+f.JobNo),
		Confirm: "plumbline decide " + f.Finding + " confirm --by NAME --note WHY"}
	if f.Detail != nil && *f.Detail != "" {
		row.What += ": " + *f.Detail
	}
	if f.Subject == nil && f.System == nil {
		row.What = or(f.Detail)
	}
	return row
}
