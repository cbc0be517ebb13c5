// Package profile is the language in which a mapping profile says what another program's file holds: read, checked, and
// turned into statements over the file's rows.
package profile

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A Profile says what another program's file holds: which rows, and which column is what.
type Profile struct {
	Name    string           `toml:"name"`
	Source  Source           `toml:"source"`
	Shared  map[string]Field `toml:"shared"` // fields of every record that has such a column and no field of its own for it
	Records []RecordMapping  `toml:"record"`

	file  string         // where it was read from
	lines map[string]int // the line of each setting, by its path
}

// A Source says how the rows lie in the file.
type Source struct {
	Sheet       string    `toml:"sheet"`        // of a workbook; empty: the first that is visible
	HeaderRow   int       `toml:"header_row"`   // line that names the columns, the first where nothing is said; 0: none does
	HeaderRows  []int     `toml:"header_rows"`  // or the lines that name them together: a group, and what is in it
	DateOrder   string    `toml:"date_order"`   // mdy, dmy or ymd
	DateSerials string    `toml:"date_serials"` // 1900 or 1904: numbers are days of this system; a workbook says it itself
	Zone        string    `toml:"zone"`         // as the import's own; that one goes before
	Decimal     string    `toml:"decimal"`      // mark; empty: a point
	Thousands   string    `toml:"thousands"`    // mark; empty: none
	FillDown    []string  `toml:"fill_down"`    // columns whose empty cells take the value above
	Skip        []RowTest `toml:"skip"`         // rows that are no records: totals, headings
}

// A RowTest is passed by rows whose column matches a regular expression.
type RowTest struct {
	Column  string `toml:"column"`
	Matches string `toml:"matches"`
}

// A RecordMapping makes one record of a kind from each row, or from each item of a list in a cell.
type RecordMapping struct {
	Kind   string           `toml:"kind"`
	When   string           `toml:"when"`   // column that must not be empty; empty: some field must have a value
	Unless string           `toml:"unless"` // a regular expression; a row whose when column matches it gives no record
	Each   EachItem         `toml:"each"`
	Fields map[string]Field `toml:"fields"`

	place int // among the profile's records, from 0
}

// An EachItem cuts a cell into items, each of which makes a record.
type EachItem struct {
	Column    string `toml:"column"`
	Separator string `toml:"separator"` // a regular expression
	Only      string `toml:"only"`      // a regular expression; only items that it matches count
	Except    string `toml:"except"`    // a regular expression; items that it matches do not count
}

// A Field says where a column of the layout comes from. In TOML a plain text is short for column.
type Field struct {
	Column    string            `toml:"column"`
	Position  int               `toml:"position"` // number of the column, 1 for the first, in place of its name
	Columns   []string          `toml:"columns"`  // joined with a space: date and time
	Constant  string            `toml:"constant"`
	Item      bool              `toml:"item"`      // the item of each
	Extract   string            `toml:"extract"`   // a regular expression; its first group is the value
	Words     map[string]string `toml:"words"`     // the source's words, without regard to case, and the layout's
	Otherwise string            `toml:"otherwise"` // the word for all that words does not list
	Unit      string            `toml:"unit"`      // of the source's number, to be turned into the layout's
	Number    string            `toml:"number"`    // "order": 1, 2, 3 … within the rest of the key, in the file's order
}

// UnmarshalText takes the short form, a column's name alone.
func (f *Field) UnmarshalText(text []byte) error {
	f.Column = string(text)
	return nil
}

// Read reads and checks a profile; an error names its line.
func Read(path string) (*Profile, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, source.Refuse(path, "cannot be read", "check the name of the profile")
	}
	return Parse(path, text)
}

func Parse(path string, text []byte) (*Profile, error) {
	p := &Profile{file: path, Source: Source{HeaderRow: 1}}
	decoder := toml.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(p); err != nil {
		return nil, profileError(path, err)
	}
	p.lines = settingLines(text)
	for i := range p.Records {
		p.Records[i].place = i
		p.share(&p.Records[i])
	}
	if p.Name == "" {
		p.Name = strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	}
	if p.Source.Decimal == "" {
		p.Source.Decimal = "."
	}
	return p, p.check()
}

// share gives a record the fields that it has from all.
func (p *Profile) share(record *RecordMapping) {
	kind := layout.KindNamed(record.Kind)
	if kind == nil {
		return
	}
	for name, field := range p.Shared {
		if _, own := record.Fields[name]; own || kind.Column(name) == nil {
			continue
		}
		if record.Fields == nil {
			record.Fields = map[string]Field{}
		}
		record.Fields[name] = field
	}
}

// profileError gives a TOML error the line it speaks of.
func profileError(path string, err error) error {
	fault := source.Fault{File: path, Reason: "cannot be read: " + strings.TrimPrefix(err.Error(), "toml: "), Remedy: "mend this line of the profile"}
	var decode *toml.DecodeError
	var strict *toml.StrictMissingError
	switch {
	case errors.As(err, &strict) && len(strict.Errors) > 0:
		row, _ := strict.Errors[0].Position()
		fault.Line, fault.Reason = int64(row), fmt.Sprintf("there is no setting %q", strings.Join(strict.Errors[0].Key(), "."))
	case errors.As(err, &decode):
		row, _ := decode.Position()
		fault.Line = int64(row)
	}
	return &source.Refusal{Fault: fault}
}

// HeaderLines are the lines that name the columns, in order; none where the profile says that none does.
func (s Source) HeaderLines() []int {
	switch {
	case len(s.HeaderRows) > 0:
		return s.HeaderRows
	case s.HeaderRow == 0:
		return nil
	}
	return []int{s.HeaderRow}
}
