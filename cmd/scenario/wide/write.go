package wide

import (
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"golang.org/x/text/encoding/charmap"

	"plumbline/cmd/scenario/invent"
	"plumbline/cmd/scenario/record"
)

// FileName is the list's name; jobs is how many jobs it holds.
const (
	FileName = "saltmarsh-job-list.csv"
	jobs     = 150
)

// Write writes the list into dir, which it makes if need be.
func Write(dir string, seed uint64) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("make folder for the job list: %w", err)
	}
	file, err := os.Create(filepath.Join(dir, FileName))
	if err != nil {
		return fmt.Errorf("create job list: %w", err)
	}
	to := csv.NewWriter(charmap.Windows1252.NewEncoder().Writer(file))
	to.Comma, to.UseCRLF = ';', true
	for _, row := range rows(invent.Newcomer(seed, jobs)) {
		to.Write(row) // an error sticks until Flush
	}
	to.Flush()
	if err := errors.Join(to.Error(), file.Close()); err != nil {
		return fmt.Errorf("write job list: %w", err)
	}
	return nil
}

// rows lays the list out with all that surrounds the jobs.
func rows(visits []*record.Visit) [][]string {
	all := [][]string{
		line("Saltmarsh Glass & Calibration – job list"),
		line("front desk copy, 09/30/2026 5:42 PM"),
		line(),
		header(func(c column) string { return c.group }),
		header(func(c column) string { return c.name }),
	}
	last := ""
	for i, v := range visits {
		e := entryOf(v, i)
		row := header(func(c column) string { return c.cell(e) })
		if this := month(v.Job.OpenedAt); this != last {
			if last != "" {
				all = append(all, line())
			}
			row[0], last = this, this
		}
		all = append(all, row)
	}
	return append(all, line(), line(), line("Total", "", fmt.Sprintf("%d jobs", len(visits))),
		line("W/S = windshield; SDAT = safe drive-away time in minutes; NG = not good"))
}

// line is a row with these first cells and the rest empty.
func line(cells ...string) []string {
	row := make([]string, len(columns))
	copy(row, cells)
	return row
}

func header(of func(column) string) []string {
	row := make([]string, len(columns))
	for i, c := range columns {
		row[i] = of(c)
	}
	return row
}
