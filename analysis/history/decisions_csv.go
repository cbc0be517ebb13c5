package history

import (
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
)

// decisionColumns are the columns of a file of decisions.
var decisionColumns = []string{"finding", "verdict", "decided_by", "at", "note"}

// A DecisionBalance says what became of the decisions read from a file: read is added plus unchanged.
type DecisionBalance struct {
	Read, Added, Unchanged int64
	NotRaised              int64 // findings decided on, in this file or before, that the records do not raise
}

// ExportDecisions writes all decisions as CSV, in the order in which they were made.
func ExportDecisions(ctx context.Context, h *History, w io.Writer) error {
	decisions, err := Decisions(ctx, h, "")
	if err != nil {
		return err
	}
	out := csv.NewWriter(w)
	rows := [][]string{decisionColumns}
	for _, d := range decisions {
		rows = append(rows, []string{d.Finding, string(d.Verdict), d.By, d.At.Format(time.DateTime), d.Note})
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("export decisions: %w", err)
	}
	return nil
}

// ImportDecisions keeps the decisions of a CSV file; one that is there already adds nothing. A finding need not be
// raised yet, for records may come later than the decisions. A file with any fault changes nothing, and the error
// names every fault by file and line.
func ImportDecisions(ctx context.Context, h *History, name string, r io.Reader) (DecisionBalance, error) {
	var balance DecisionBalance
	decisions, err := readDecisions(name, r)
	if err != nil {
		return balance, err
	}
	err = h.Change(ctx, func() error {
		for _, d := range decisions {
			added, err := h.Count(ctx, "intake/decide", d.params())
			if err != nil {
				return fmt.Errorf("import %s: %w", name, err)
			}
			balance.Read++
			balance.Added += added
		}
		return nil
	})
	if err != nil {
		return DecisionBalance{}, err
	}
	balance.Unchanged = balance.Read - balance.Added
	balance.NotRaised, err = One[int64](ctx, h, "intake/decisions_not_raised", nil)
	return balance, err
}

// readDecisions reads a whole file and collects its faults.
func readDecisions(name string, r io.Reader) ([]Decision, error) {
	in := csv.NewReader(r)
	in.FieldsPerRecord = -1 // counted here, to name the line
	header, err := in.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: no decisions in it: %w", name, err)
	}
	places, err := columnPlaces(name, header)
	if err != nil {
		return nil, err
	}
	var decisions []Decision
	var faults []error
	for {
		row, err := in.Read()
		if errors.Is(err, io.EOF) {
			return decisions, errors.Join(faults...)
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		line, _ := in.FieldPos(0)
		d, err := readDecision(row, places, len(header))
		if err != nil {
			faults = append(faults, fmt.Errorf("%s:%d: %w", name, line, err))
		}
		decisions = append(decisions, d)
	}
}

// columnPlaces finds the columns in a header in any order and case.
func columnPlaces(name string, header []string) ([]int, error) {
	places := make([]int, len(decisionColumns))
	for i, column := range decisionColumns {
		places[i] = slices.IndexFunc(header, func(title string) bool {
			return strings.EqualFold(strings.Trim(title, " \ufeff"), column)
		})
		if places[i] < 0 {
			return nil, fmt.Errorf("%s:1: no column %q: a file of decisions has the columns %s",
				name, column, strings.Join(decisionColumns, ", "))
		}
	}
	return places, nil
}

func readDecision(row []string, places []int, width int) (Decision, error) {
	if len(row) != width {
		return Decision{}, fmt.Errorf("%d fields where the header has %d", len(row), width)
	}
	field := func(i int) string { return strings.TrimSpace(row[places[i]]) }
	d := Decision{Finding: strings.ToLower(field(0)), Verdict: Verdict(strings.ToLower(field(1))), By: field(2), Note: field(4)}
	if len(d.Finding) != 16 || !findingDigits.MatchString(d.Finding) {
		return d, fmt.Errorf("finding %q is not 16 hexadecimal digits", field(0))
	}
	at, err := time.Parse(time.DateTime, strings.Replace(field(3), "T", " ", 1))
	if err != nil {
		return d, fmt.Errorf("at %q is not a time: write it as 2026-03-09 14:05:00", field(3))
	}
	d.At = at
	return d, d.check()
}
