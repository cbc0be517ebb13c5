package source

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// A Fault is something in a file that cannot be taken as it is: where, what, and what to do about it.
type Fault struct {
	File   string
	Sheet  string // of a workbook
	Line   int64  // physical line or the sheet's row, 1 for the first; 0 where the whole file is at fault
	Column string // as the source writes it; empty where the whole row is at fault
	Cell   int    // the column's number in a sheet, 1 for A; 0 where it is not known
	Value  string
	Reason string // reads on after the column and value: "is not a date"
	Remedy string
}

// String renders the fault in one line, or two where there is a remedy: place and reason, then what to do.
func (f Fault) String() string {
	var out strings.Builder
	out.WriteString(f.Place())
	out.WriteString(": ")
	if f.Column != "" {
		out.WriteString(f.Column + " ")
	}
	if f.Value != "" {
		fmt.Fprintf(&out, "%q ", Shortened(f.Value))
	}
	out.WriteString(f.Reason)
	if f.Remedy != "" {
		out.WriteString("\n  " + f.Remedy)
	}
	return out.String()
}

// countsRecords are the forms of file whose records have a number and no line.
var countsRecords = map[string]bool{"json": true, "ndjson": true, "parquet": true}

// Place is file:line, or file Sheet!D214 for a workbook.
func (f Fault) Place() string {
	switch {
	case f.Line > 0 && countsRecords[FormOf(f.File)]:
		return fmt.Sprintf("%s, record %d", strings.TrimSpace(f.File+" "+f.Sheet), f.Line)
	case f.Sheet != "" && f.Line > 0:
		letters, err := excelize.ColumnNumberToName(f.Cell)
		if err != nil {
			letters = "row "
		}
		return fmt.Sprintf("%s %s!%s%d", f.File, f.Sheet, letters, f.Line)
	case f.Sheet != "":
		return f.File + " " + f.Sheet
	case f.Line > 0:
		return fmt.Sprintf("%s:%d", f.File, f.Line)
	}
	return f.File
}

// Shortened keeps a value to what fits into a line.
func Shortened(value string) string {
	const most = 80
	runes := []rune(value)
	if len(runes) <= most {
		return value
	}
	return string(runes[:most]) + "…"
}

// A Refusal is a file that was refused whole. Nothing of its import is kept.
type Refusal struct{ Fault }

// Error is the fault as people read it.
func (r *Refusal) Error() string { return r.Fault.String() }

func Refuse(file, reason, remedy string) error {
	return &Refusal{Fault: Fault{File: file, Reason: reason, Remedy: remedy}}
}
