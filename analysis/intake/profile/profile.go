// Package profile is the language in which a mapping profile says what another program's file holds: read, checked, and
// turned into statements over the file's rows.
package profile

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
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
	Sheet       string            `toml:"sheet"`        // of a workbook; empty: the first that is visible
	Sheets      string            `toml:"sheets"`       // "alike": all visible sheets that have the columns that the profile uses
	HeaderRow   int               `toml:"header_row"`   // line that names the columns, the first where nothing is said; 0: none does
	HeaderRows  []int             `toml:"header_rows"`  // or the lines that name them together: a group, and what is in it
	DateOrder   string            `toml:"date_order"`   // mdy, dmy or ymd
	DateSerials string            `toml:"date_serials"` // 1900 or 1904: numbers are days of this system; a workbook says it itself
	Zone        string            `toml:"zone"`         // as the import's own; that one goes before
	Decimal     string            `toml:"decimal"`      // mark; empty: a point
	Thousands   string            `toml:"thousands"`    // mark; empty: none
	FillDown    []string          `toml:"fill_down"`    // columns whose empty cells take the value above
	Ditto       []string          `toml:"ditto"`        // texts that stand for the value above, in any column
	Cut         map[string]string `toml:"cut"`          // marks at which the cells of a column are cut into parts; white space where nothing is said
	Members     []string          `toml:"members"`      // of JSON: objects whose members' names are values: readings.*
	Skip        []RowTest         `toml:"skip"`         // rows that are no records: totals, headings
}

// A RowTest is passed by rows whose column holds one of the texts, contains one, or matches a regular expression. Letter
// case does not matter in the first two.
type RowTest struct {
	Column   string `toml:"column"`
	Is       Names  `toml:"is"`
	Contains Names  `toml:"contains"`
	Matches  string `toml:"matches"`
}

// Names are several texts; in TOML one may stand alone.
type Names []string

// UnmarshalText takes a text that stands alone.
func (n *Names) UnmarshalText(text []byte) error {
	*n = Names{string(text)}
	return nil
}

// A RecordMapping makes one record of a kind from each row, or from each item of a list in a cell.
type RecordMapping struct {
	Kind   string           `toml:"kind"`
	Rows   []RowTest        `toml:"rows"`   // only rows that pass all of them
	When   Names            `toml:"when"`   // columns of which one must not be empty; none: some field must have a value
	Unless string           `toml:"unless"` // a regular expression; a row whose when column matches it gives no record
	OneBy  Names            `toml:"one_by"` // rows alike in these columns are one attempt, from the first's time to the last's
	Each   EachItem         `toml:"each"`
	Fields map[string]Field `toml:"fields"`

	place int // among the profile's records, from 0
}

// An EachItem cuts a cell into items, each of which makes a record.
type EachItem struct {
	Column           string `toml:"column"`
	Separator        string `toml:"separator"`         // plain text between the items
	SeparatorMatches string `toml:"separator_matches"` // or a regular expression
	Only             string `toml:"only"`              // a regular expression; only items that it matches count
	Except           string `toml:"except"`            // a regular expression; items that it matches do not count
}

// expression is what parts the items, as a regular expression.
func (e EachItem) expression() string {
	if e.SeparatorMatches != "" {
		return e.SeparatorMatches
	}
	return regexp.QuoteMeta(e.Separator)
}

// A Field says where a column of the layout comes from. In TOML a plain text is short for column.
type Field struct {
	Column    string            `toml:"column"`   // a name, "Name, part 2", "Name, part 2 on", "position 3", or several joined with " + "
	Position  int               `toml:"position"` // number of the column, 1 for the first, in place of its name
	Columns   []string          `toml:"columns"`  // joined with a space: date and time
	Either    []string          `toml:"either"`   // the first of which every column is filled, else the last
	Constant  string            `toml:"constant"`
	Item      bool              `toml:"item"`      // the item of each
	Extract   string            `toml:"extract"`   // a regular expression; its first group is the value
	Drop      string            `toml:"drop"`      // text left out where the value begins with it: RO #
	Words     map[string]string `toml:"words"`     // the source's words, without regard to case, and the layout's; "none" is no value
	Otherwise string            `toml:"otherwise"` // the word for all that words does not list
	Unit      Unit              `toml:"unit"`      // of the source's number, to be turned into the layout's
	Number    string            `toml:"number"`    // "order": 1, 2, 3 … within the rest of the key, in the file's order
}

// A Unit is that of a whole column, or stands in a column of its own. In TOML a plain text is short for name.
type Unit struct {
	Name   string            `toml:"name"`
	Column string            `toml:"column"`
	Words  map[string]string `toml:"words"` // the source's names of units, and ours
}

// UnmarshalText takes the short form, a unit's name alone.
func (u *Unit) UnmarshalText(text []byte) error {
	u.Name = string(text)
	return nil
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
