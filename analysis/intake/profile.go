package intake

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// A Profile says what another program's file holds: which rows, and which column is what.
type Profile struct {
	Name    string          `toml:"name"`
	Source  ProfileSource   `toml:"source"`
	Records []RecordMapping `toml:"record"`

	file string // where it was read from
	text string
}

// A ProfileSource says how the rows lie in the file.
type ProfileSource struct {
	Sheet     string    `toml:"sheet"`      // of a workbook; empty: the first that is visible
	HeaderRow int       `toml:"header_row"` // line that names the columns, 1 for the first; 0: 1
	DateOrder string    `toml:"date_order"` // mdy, dmy or ymd
	Decimal   string    `toml:"decimal"`    // mark; empty: a point
	Thousands string    `toml:"thousands"`  // mark; empty: none
	FillDown  []string  `toml:"fill_down"`  // columns whose empty cells take the value above
	Skip      []RowTest `toml:"skip"`       // rows that are no records: totals, headings
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
	Unit      string            `toml:"unit"`      // mi, to be turned into kilometers
	Number    string            `toml:"number"`    // "order": 1, 2, 3 … within the rest of the key, in the file's order
}

// UnmarshalText takes the short form, a column's name alone.
func (f *Field) UnmarshalText(text []byte) error {
	f.Column = string(text)
	return nil
}

// readProfile reads and checks a profile; an error names its line.
func readProfile(path string) (*Profile, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, refuse(path, "cannot be read", "check the name of the profile")
	}
	return parseProfile(path, text)
}

func parseProfile(path string, text []byte) (*Profile, error) {
	p := &Profile{file: path, text: string(text)}
	decoder := toml.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(p); err != nil {
		return nil, profileError(path, err)
	}
	if p.Name == "" {
		p.Name = strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	}
	return p, p.check()
}

// profileError gives a TOML error the line it speaks of.
func profileError(path string, err error) error {
	fault := Fault{File: path, Reason: "cannot be read: " + strings.TrimPrefix(err.Error(), "toml: "), Remedy: "mend this line of the profile"}
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
	return &Refusal{fault}
}

// refuse names the first line of the profile that holds the text in question.
func (p *Profile) refuse(about, reason string) error {
	fault := Fault{File: p.file, Reason: reason, Remedy: "mend this line of the profile"}
	for i, line := range strings.Split(p.text, "\n") {
		if about != "" && strings.Contains(line, about) {
			fault.Line = int64(i + 1)
			break
		}
	}
	return &Refusal{fault}
}

// check finds what is wrong with a profile before any file is read.
func (p *Profile) check() error {
	if len(p.Records) == 0 {
		return p.refuse("", "maps no record")
	}
	if p.Source.HeaderRow == 0 {
		p.Source.HeaderRow = 1
	}
	if !slices.Contains([]string{"", "mdy", "dmy", "ymd"}, p.Source.DateOrder) {
		return p.refuse("date_order", fmt.Sprintf("date_order %q is not mdy, dmy or ymd", p.Source.DateOrder))
	}
	if p.Source.Decimal == "" {
		p.Source.Decimal = "."
	}
	for _, test := range p.Source.Skip {
		if _, err := regexp.Compile(test.Matches); err != nil {
			return p.refuse(test.Matches, "holds no regular expression: "+err.Error())
		}
	}
	for _, record := range p.Records {
		if err := p.checkRecord(record); err != nil {
			return err
		}
	}
	return nil
}

func (p *Profile) checkRecord(record RecordMapping) error {
	kind := KindNamed(record.Kind)
	if kind == nil {
		return p.refuse(`"`+record.Kind+`"`, fmt.Sprintf("there is no kind %q; the kinds are %s", record.Kind, strings.Join(KindNames(), ", ")))
	}
	for _, column := range kind.Columns {
		if _, ok := record.Fields[column.Name]; column.Required && !ok {
			return p.refuse(`"`+record.Kind+`"`, fmt.Sprintf("a record of %s lacks %s, which it must have", kind.Name, column.Name))
		}
	}
	for _, pattern := range []string{record.Unless, record.Each.Separator, record.Each.Only, record.Each.Except} {
		if _, err := regexp.Compile(pattern); err != nil {
			return p.refuse(pattern, "holds no regular expression: "+err.Error())
		}
	}
	for name, field := range record.Fields {
		if kind.Column(name) == nil {
			return p.refuse(name, fmt.Sprintf("%s has no column %s", kind.Name, name))
		}
		if field.sources() != 1 {
			return p.refuse(name, fmt.Sprintf("%s of %s must have one of column, position, columns, constant, item and number", name, kind.Name))
		}
		if _, err := regexp.Compile(field.Extract); err != nil {
			return p.refuse(field.Extract, "holds no regular expression: "+err.Error())
		}
		if _, ok := factors[field.Unit]; !ok {
			return p.refuse(field.Unit, fmt.Sprintf("the unit %q is not mi", field.Unit))
		}
	}
	return nil
}

// sources counts the ways in which the field says where it comes from.
func (f Field) sources() int {
	count := 0
	for _, given := range []bool{f.Column != "", f.Position > 0, len(f.Columns) > 0, f.Constant != "", f.Item, f.Number != ""} {
		if given {
			count++
		}
	}
	return count
}

// factors turn a source's unit into the layout's: km for miles. Source: NIST SP 811 (2008), appendix B.8: mile, exact.
var factors = map[string]string{"": "", "mi": "1.609344"}
