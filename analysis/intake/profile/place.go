package profile

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
)

// Place finds a column of the source by its name, from 0. setting is where the profile names it.
func (m *Mapped) Place(setting, name string) (int, error) {
	own := OwnColumns(m.Source)
	place := columnAt(name, own)
	if place < 0 {
		return 0, m.Profile.Refuse(setting, m.missing(&NoColumn{name, own}))
	}
	if positionOf.MatchString(name) {
		return place + len(m.Source) - len(own), nil
	}
	for i, header := range own[place+1:] {
		if SameHeader(header, name) {
			return 0, m.Profile.Refuse(setting, fmt.Sprintf("the file has more than one column %q: columns %d and %d; "+
				"say which with position, or join its header rows with header_rows", name, place+1, place+2+i))
		}
	}
	return place + len(m.Source) - len(own), nil
}

// missing says that there is no such column, and how its columns are called where no row names them.
func (m *Mapped) missing(column *NoColumn) string {
	if numbers := m.Profile.Source.numbersColumns(m.Source); numbers != "" {
		return fmt.Sprintf("the file has no column %q%s", column.Name, numbers)
	}
	return column.Error()
}

func (m *Mapped) cell(setting, name string) (string, error) {
	place, err := m.Place(setting, name)
	return m.at(place), err
}

// at is a column of the source by its number from 0.
func (m *Mapped) at(place int) string {
	m.used = append(m.used, fmt.Sprintf("c%d", place+1))
	return fmt.Sprintf("foreign_rows.c%d", place+1)
}

// SameHeader tells whether two names of columns are one, letter case and blanks aside.
func SameHeader(one, other string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(one), " "), strings.Join(strings.Fields(other), " "))
}

// pieces finds where a field comes from.
func (m *Mapped) pieces(setting, text string) ([]Piece, error) {
	own := OwnColumns(m.Source)
	found, err := Pieces(text, own)
	if err != nil {
		if missing := (*NoColumn)(nil); errors.As(err, &missing) {
			err = errors.New(m.missing(missing))
		}
		return nil, m.Profile.Refuse(setting, err.Error())
	}
	for i, one := range found {
		if len(found) == 1 && one.Part == 0 { // a name that stands there twice is told
			place, err := m.Place(setting, text)
			return []Piece{{Place: place}}, err
		}
		found[i].Place += len(m.Source) - len(own)
	}
	return found, nil
}

// Columns lists the columns of a source that the profile speaks of, by their place; those it lacks are left out.
func (p *Profile) Columns(header []string) []int {
	own := OwnColumns(header)
	var places []int
	add := func(text string) {
		for _, one := range pieces(text, own) {
			places = append(places, one.Place)
		}
	}
	for _, text := range p.texts() {
		add(text)
	}
	for _, record := range p.Records {
		for _, field := range record.Fields {
			if field.Position > 0 && field.Position <= len(own) {
				places = append(places, field.Position-1)
			}
		}
	}
	slices.Sort(places)
	return slices.Compact(places)
}

// Lacks lists what the profile says of columns that the source does not have.
func (p *Profile) Lacks(header []string) []string {
	own := OwnColumns(header)
	var lacking []string
	for _, text := range p.texts() {
		if pieces(text, own) == nil && !slices.Contains(lacking, text) {
			lacking = append(lacking, text)
		}
	}
	return lacking
}

// texts are all texts of the profile that name columns.
func (p *Profile) texts() []string {
	texts := slices.Clone(p.Source.FillDown)
	tests := slices.Clone(p.Source.Skip)
	for _, record := range p.Records {
		texts = append(append(append(texts, record.When...), record.OneBy...), record.Each.Column)
		tests = append(tests, record.Rows...)
		for _, field := range record.Fields {
			texts = append(append(append(texts, field.Column, field.Unit.Column), field.Columns...), field.Either...)
		}
	}
	for _, test := range tests {
		texts = append(texts, test.Column)
	}
	return slices.DeleteFunc(texts, func(text string) bool { return text == "" })
}

// Unused lists the file's columns that no setting of the profile speaks of.
func (p *Profile) Unused(header []string) []string {
	used := p.Columns(header)
	var left []string
	for i, name := range OwnColumns(header) {
		if name != "" && !slices.Contains(used, i) {
			left = append(left, name)
		}
	}
	return left
}

// OwnColumns are those of the source itself, without the three that lead a file of rejects.
func OwnColumns(header []string) []string {
	if source.IsRejectHeader(header) {
		return header[len(source.RejectColumns):]
	}
	return header
}
