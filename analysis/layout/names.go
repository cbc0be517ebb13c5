package layout

import (
	"slices"
	"strings"
)

// Keys are the names of the key's columns.
func (k *Kind) Keys() []string {
	var names []string
	for _, c := range k.Columns {
		if c.Key {
			names = append(names, c.Name)
		}
	}
	return names
}

// StoredColumns are the columns of the kind's table that come from the row, in the table's order.
func (k *Kind) StoredColumns() []string {
	var names []string
	for _, c := range k.Columns {
		names = append(names, c.Name)
	}
	for _, c := range k.Beside {
		names = append(names, c.Name)
	}
	if k.HasMoments() {
		names = append(names, "date_only")
	}
	return names
}

// HasWord tells whether the column lists a word, however it is written.
func (c Column) HasWord(word string) bool {
	return slices.ContainsFunc(c.Words, func(known string) bool { return strings.EqualFold(known, PlainName(word)) })
}

// PlainName brings a header's or file's name into the form of the layout's names.
func PlainName(name string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '\u00a0' {
			return '_'
		}
		return r
	}, strings.ToLower(strings.TrimSpace(strings.Trim(name, "\u00a0\ufeff \t\r\n"))))
}
