package source

import (
	"path/filepath"
	"strings"
)

// MostColumns is how wide a file may be; a wider one is no file of records.
const MostColumns = 1000

// A Table is one file, or one sheet of a workbook, with the names of its columns.
type Table struct {
	File, Sheet string
	Encoding    string
	SHA256      string
	Bytes       int64
	Header      []string // the source's own column names
	Top         int      // the last line of the header; 0 where no row names the columns
	Headless    bool     // no row names the columns, and header numbers them
}

func (p *Table) Refuse(reason, remedy string) error {
	return &Refusal{Fault: Fault{File: p.File, Sheet: p.Sheet, Reason: reason, Remedy: remedy}}
}

// Name is how messages call the part.
func (p *Table) Name() string {
	if p.Sheet == "" {
		return p.File
	}
	return p.File + " " + p.Sheet
}

// BaseName is the sheet's name, or the file's without folder and ending.
func (p *Table) BaseName() string {
	if p.Sheet != "" {
		return p.Sheet
	}
	base, _, _ := strings.Cut(filepath.Base(p.File), ".")
	return base
}
