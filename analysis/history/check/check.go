// Package check proves a history whole: that every balance adds up, every key is one record's, every replaced record
// leads on to the one in its place, the journal holds together, tables, macros and views are today's, and the findings
// that any other client reads in the file are those that plumbline works out.
package check

import (
	"context"
	"fmt"

	"plumbline/analysis/history"
)

// A Line says of one thing looked at that it is whole, or names one discrepancy.
type Line struct {
	Check  string
	Place  string // how much was looked at; of a discrepancy where it is
	Result string // Whole, or what is wrong
	Remedy string // of a discrepancy
}

// Whole is the result of a check that found nothing wrong.
const Whole = "whole"

const (
	mendRecords     = "something else than plumbline has changed the file: restore it from a copy or an export, or import the files anew"
	mendDefinitions = "the next import, imports undo or decide lays today's; until then other programs read by the file's own"
)

// a question finds discrepancies with SQL; looked counts what it looks at.
type question struct{ check, query, looked, thing, remedy string }

var questions = []question{
	{"balances", "check/balances", "import_files", "line of the journal", mendRecords},
	{"journal", "check/journal", "decisions", "decision", mendRecords},
	{"keys", "check/keys", "every_record", "record", mendRecords},
	{"replaced", "check/replaced", "(select * from every_record where is_replaced)", "replaced record", mendRecords},
}

// History looks at everything and gives a line for each check that is whole and for each discrepancy.
func History(ctx context.Context, path string, progress func(check string, done, total int64)) ([]Line, error) {
	h, err := history.OpenReader(ctx, path)
	if err != nil {
		return nil, err
	}
	defer h.Close()
	if err := h.Beside(ctx, "every_record", everyRecord()); err != nil {
		return nil, err
	}
	var lines []Line
	total := int64(len(questions) + 2)
	for i, q := range questions {
		progress(q.check, int64(i), total)
		found, err := q.ask(ctx, h)
		if err != nil {
			return nil, err
		}
		lines = append(lines, found...)
	}
	if h.IsExport() {
		return lines, nil
	}
	progress("definitions", total-2, total)
	definitions, err := definitions(ctx, h)
	if err != nil {
		return nil, err
	}
	lines = append(lines, definitions...)
	progress("findings", total-1, total)
	findings, err := findings(ctx, h, path)
	return append(lines, findings...), err
}

func (q question) ask(ctx context.Context, h *history.History) ([]Line, error) {
	type discrepancy struct{ Place, Said string }
	found, err := history.Select[discrepancy](ctx, h, q.query, nil)
	if err != nil {
		return nil, err
	}
	var lines []Line
	for _, d := range found {
		lines = append(lines, Line{q.check, d.Place, d.Said, q.remedy})
	}
	if len(lines) > 0 {
		return lines, nil
	}
	looked, err := history.SelectStatement[int64](ctx, h, history.Statement{Name: q.check, SQL: "select count(*) from " + q.looked}, nil)
	if err != nil {
		return nil, err
	}
	return []Line{{q.check, counted(looked[0], q.thing), Whole, ""}}, nil
}

func counted(n int64, thing string) string {
	switch {
	case n == 1:
		return "1 " + thing
	case thing == "line of the journal":
		return fmt.Sprintf("%d lines of the journal", n)
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
