// Package layout is the record layout, said once: the kinds of record, their columns, types, keys and words. It imports
// nothing of the project; readers, checks, messages, profiles and exports follow it.
package layout

import "slices"

// A Type says how a column's text becomes a value.
type Type int

// The types of the record layout.
const (
	Text       Type = iota
	Moment          // a timestamp; a date alone is the day's first moment
	LastMoment      // a timestamp; a date alone is the day's last second
	EndMoment       // a timestamp; a date alone is missing
	Number
	Integer
	Word
	VIN
	TroubleCode
	SHA256
)

// A Column is one column of a kind of record.
type Column struct {
	Name       string
	Type       Type
	Required   bool
	Key        bool
	Identifier bool     // its texts name something: digits in it are no amount, and every zero counts
	Enum       string   // the word's type in SQL
	Words      []string // the words of a Word, as they are stored
	Meaning    string   // where the name does not say it all
}

// A Kind is one of the ten kinds of record.
type Kind struct {
	Name    string // "jobs": the table, and the usual file
	Title   string // what one record is
	Columns []Column
	Beside  []Column // that its table has beside these, made from them
}

// Column finds a column by name; nil where the kind has none of that name.
func (k *Kind) Column(name string) *Column {
	for i := range k.Columns {
		if k.Columns[i].Name == name {
			return &k.Columns[i]
		}
	}
	return nil
}

// HasMoments tells whether the kind has timestamps, and so remembers which were dates alone.
func (k *Kind) HasMoments() bool {
	return slices.ContainsFunc(k.Columns, func(c Column) bool { return c.IsMoment() })
}

func (c Column) IsMoment() bool {
	return c.Type == Moment || c.Type == LastMoment || c.Type == EndMoment
}

// KindNamed finds a kind by name; nil where there is none.
func KindNamed(name string) *Kind {
	for i := range Kinds {
		if Kinds[i].Name == name {
			return &Kinds[i]
		}
	}
	return nil
}

// KindNames lists the kinds in the order of the layout.
func KindNames() []string {
	names := make([]string, len(Kinds))
	for i := range Kinds {
		names[i] = Kinds[i].Name
	}
	return names
}
