package layout

import (
	"slices"
	"strings"
)

// This file writes the tables that hold the records. Besides the layout's own columns a table has
//
//	date_only     names of the timestamps that were given as a date alone, separated by a space; null where none was
//	known_as      of records that their source does not number, and of what belongs to them: the moment by which the record
//	              was first known, and its place among those of that moment; null where a number was read first. With a
//	              measurement or fault: the record that it came in one row with
//	number_given  true where the import gave the number; null where it was read
//	from_file     the line of import_files that the row came from
//
// Keys are kept unique by the import, which is the only writer.

// Tables gives the statements that make the enumerations, the kinds' tables, and beside each, in the schema superseded, one
// for the rows that a later import has replaced.
func Tables() []string {
	statements := []string{wordTypes(), "create schema superseded"}
	for i := range Kinds {
		statements = append(statements, Kinds[i].table())
	}
	return statements
}

// Words lists the words of every enumeration by its name in SQL, in byte order, so that sorting by the enumeration is
// sorting by the text.
func Words() map[string][]string {
	all := map[string][]string{}
	for i := range Kinds {
		for _, c := range slices.Concat(Kinds[i].Columns, Kinds[i].Beside) {
			if c.Type == Word {
				all[c.Enum] = slices.Sorted(slices.Values(c.Words))
			}
		}
	}
	return all
}

// wordTypes makes the closed lists of words.
func wordTypes() string {
	words := Words()
	names := make([]string, 0, len(words))
	for name, list := range words {
		names = append(names, "create type "+name+" as enum ('"+strings.Join(list, "', '")+"')")
	}
	slices.Sort(names)
	return strings.Join(names, ";\n")
}

func (k *Kind) table() string {
	var columns []string
	for _, c := range slices.Concat(k.Columns, k.Beside) {
		column := c.Name + " " + c.sqlType()
		if c.Required || k.isNumbered(c) {
			column += " not null"
		}
		columns = append(columns, column)
	}
	if k.HasMoments() {
		columns = append(columns, "date_only varchar")
	}
	for _, name := range k.NamingColumns() {
		columns = append(columns, name+" "+namingTypes[name])
	}
	columns = append(columns, "from_file integer not null")
	comment := strings.ReplaceAll(k.Title+"; key: "+k.keyInWords(), "'", "''")
	return "create table " + k.Name + " (" + strings.Join(columns, ", ") + ");\n" +
		"comment on table " + k.Name + " is '" + comment + "';\n" +
		"create table superseded." + k.Name + " as select *, null::integer as replaced_by from " + k.Name + " limit 0"
}

var namingTypes = map[string]string{"known_as": "varchar", "number_given": "boolean"}

// isNumbered tells whether the column is the kind's own number, which the import gives where the source does not.
func (k *Kind) isNumbered(c Column) bool {
	n := k.Numbering()
	return n != nil && n.Owner == "" && n.Number == c.Name
}

// keyInWords lists the key's columns, with the moment that stands in for a number.
func (k *Kind) keyInWords() string {
	names := k.Keys()
	if n := k.Numbering(); n != nil && n.Owner != "" {
		moment := strings.TrimPrefix(n.Stage+" and "+n.At, " and ")
		names[slices.Index(names, n.Number)] += " or " + moment
	}
	return strings.Join(names, ", ")
}

func (c Column) sqlType() string {
	switch {
	case c.IsMoment():
		return "timestamp"
	case c.Type == Number:
		return "double"
	case c.Type == Integer:
		return "integer"
	case c.Type == Word:
		return c.Enum
	}
	return "varchar"
}
