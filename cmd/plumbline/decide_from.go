package main

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
)

// answerColumns are the columns of a file of answers; decisionsSheet is where a workbook has them.
var answerColumns = []string{"finding", "decision", "by", "note"}

const decisionsSheet = "Decisions"

// readAnswers decides as a file says, and names what of it cannot be kept.
func (f *decideFlags) readAnswers(ctx context.Context, a *app) error {
	table, rows, err := source.NamedRows(f.from, decisionsSheet, answerColumns)
	if err != nil {
		return err
	}
	var (
		answers  []history.Answer
		lines    []int
		setAside []source.Fault
		passed   int
		now      = time.Now()
	)
	for _, row := range rows {
		at := source.Fault{File: table.File, Sheet: table.Sheet, Line: int64(row.Line)}
		verdict, fault := answered(row.Cells, at)
		switch {
		case fault != nil:
			setAside = append(setAside, *fault)
		case verdict == "":
			passed++
		default:
			lines = append(lines, row.Line)
			answers = append(answers, history.Answer{Decision: history.Decision{Finding: row.Cells[0], Verdict: verdict,
				By: row.Cells[2], Note: row.Cells[3], At: now}})
		}
	}
	h, err := f.open(ctx, a)
	if err != nil {
		return err
	}
	defer h.Close()
	if err := history.DecideAll(ctx, h, answers); err != nil {
		return err
	}
	return a.tellAnswers(table, answers, lines, setAside, passed)
}

// answered reads the decision of a row; empty where the row has none.
func answered(cells []string, at source.Fault) (history.Verdict, *source.Fault) {
	word := strings.TrimSuffix(folded(cells[1]), "ed") // as findings write it
	at.Column = "decision"
	switch {
	case word == "":
		return "", nil
	case word != "confirm" && word != "dismiss":
		at.Value, at.Reason, at.Remedy = cells[1], "is no decision", "write confirm or dismiss, or leave it empty"
		return "", &at
	case cells[2] == "":
		at.Column, at.Reason, at.Remedy = "by", "is empty", "write who decides"
		return "", &at
	case cells[3] == "":
		at.Column, at.Reason, at.Remedy = "note", "is empty", "write why"
		return "", &at
	}
	return verdicts[word], nil
}

// tellAnswers says what became of the rows of a file of answers.
func (a *app) tellAnswers(table *source.Table, answers []history.Answer, lines []int, setAside []source.Fault, passed int) error {
	var kept, known int
	for i, answer := range answers {
		at := source.Fault{File: table.File, Sheet: table.Sheet, Line: int64(lines[i])}
		switch {
		case answer.Fault != nil:
			at.Reason = answer.Fault.Error()
			setAside = append(setAside, at)
		case answer.Known:
			known++
			if answer.Stand != "" {
				fmt.Fprintf(a.err, "%s: finding %s was decided so before, and is %s\n", at.Place(), answer.Finding, answer.Stand)
			}
		default:
			kept++
		}
	}
	slices.SortFunc(setAside, func(x, y source.Fault) int { return int(x.Line - y.Line) })
	for _, fault := range setAside {
		fmt.Fprintln(a.err, fault)
	}
	_, err := fmt.Fprintf(a.err, "%s: %s kept, %d known already, %d without one, %s set aside\n", table.Name(),
		counted(kept, "decision"), known, passed, counted(len(setAside), "row"))
	if err == nil && len(setAside) > 0 {
		return errPartial
	}
	return err
}
