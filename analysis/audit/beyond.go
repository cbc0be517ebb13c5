package audit

import (
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/layout"
	"plumbline/queries"
)

// This file brings columns of the record layout into the bundle that a table's query does not speak of, so that a column new
// in the layout cannot stay out.

// beyond are the layout's columns that the table's query lacks.
func (t table) beyond() []layout.Column {
	kind := layout.KindNamed(t.kind)
	if kind == nil {
		return nil
	}
	queried := t.queried()
	var missing []layout.Column
	for _, c := range kind.Columns {
		isQueried := func(of record.Column) bool { return of.Name == c.Name }
		if !slices.ContainsFunc(queried, isQueried) && !namesOwner(kind, c) {
			missing = append(missing, c)
		}
	}
	return missing
}

// namesOwner tells whether the column only says which attempt or scan a record without a number belongs to; the bundle
// gives the number that it was given.
func namesOwner(kind *layout.Kind, c layout.Column) bool {
	n := kind.Numbering()
	return n != nil && n.Owner != "" && (c.Name == n.At || c.Name == n.Stage)
}

// statement is the table's query, with the columns that it lacks from the record of the same key.
func (t table) statement() (string, error) {
	text, err := queries.SQL(t.query)
	missing := t.beyond()
	if err != nil || len(missing) == 0 {
		return text, err
	}
	var names, same []string
	for _, c := range missing {
		names = append(names, "record."+c.Name)
	}
	for _, key := range layout.KindNamed(t.kind).Keys() {
		same = append(same, fmt.Sprintf("record.%[1]s is not distinct from told.%[1]s", key))
	}
	return "select told.* exclude (place), " + strings.Join(names, ", ") +
		"\nfrom (select *, row_number() over () as place from (\n" + strings.TrimSuffix(strings.TrimSpace(text), ";") +
		"\n)) as told\nleft join " + t.kind + " as record on " + strings.Join(same, " and ") + "\norder by place", nil
}
