package queries

import (
	"fmt"
	"strings"
	"text/template"
)

// A Column is a column of a table as the templates know it.
type Column struct {
	Name       string
	MayBeEmpty bool // two missing values are then the same value
}

// String is the column's name.
func (c Column) String() string { return c.Name }

// An OfKind is what varies between the statements that an import runs for each kind of record: the templates of
// intake/kind are filled with it. Only names of the record layout go in; values are bound.
type OfKind struct {
	Table   string
	Stored  []Column // that come from the file, in the table's order
	Plain   []Column // of these, all but a number that may be given
	Key     []Column
	FileKey []Column // by which rows of the file are told apart
	Content []Column // by which two rows of one key are stored alike

	// Of kinds whose records are known by a number, or by their moment where there is none.
	Number, At, Stage string   // columns; Stage is a scan's, empty for others
	Task              []Column // within which a number is one record's
	Among             []Column // within which a moment is one record's
	Digested          []Column // what a record says, without its number
	Beside            []Column // of its content, what is neither moment nor day
	Owner             string   // the kind whose records the number or moment names; empty: its own
	Placed            [5]string
	ByMoment          bool // some row or record has no number of its own

	Foreign      bool     // the rows came through a profile and may lack what the records have
	Gaps, Filled []Column // columns to fill, and to compare, in a merge
	Moments      []Column // timestamps that may be dates alone

	Relation, Typed, Readable string   // where the rows are read, the select of their values, and what makes them readable
	Whole, Record             string   // the row's fields as read, and which record of its line it is
	Faults                    []string // an expression for each way in which a column can be at fault
	Remedy                    string   // for a row of a wrong shape
	NumberPlace               int      // the number's column in the source, from 1
	Into                      string   // the table that is changed
	Kinds                     []string // all of them, where a statement is on all
	Texts                     []string // expressions for the texts that a statement looks at
}

// Statement fills a template of intake/kind.
func (k OfKind) Statement(name string) (string, error) {
	text, err := SQL("intake/kind/" + name)
	if err != nil {
		return "", err
	}
	parsed, err := template.New(name).Funcs(template.FuncMap{
		"list": list, "same": same, "alike": same, "within": within,
		"onKey": k.onKey, "quote": quote, "inc": func(i int) int { return i + 1 }, "knownAt": k.knownAt, "ofRecord": k.ofRecord, "digest": k.digest,
	}).Parse(text)
	if err != nil {
		return "", fmt.Errorf("intake/kind/%s.sql: %w", name, err)
	}
	var out strings.Builder
	if err := parsed.Execute(&out, k); err != nil {
		return "", fmt.Errorf("intake/kind/%s.sql: %w", name, err)
	}
	return out.String(), nil
}

// list puts columns of a table, or of none, side by side.
func list(table string, columns []Column) string {
	names := make([]string, len(columns))
	for i, c := range columns {
		if names[i] = c.Name; table != "" {
			names[i] = table + "." + c.Name
		}
	}
	return strings.Join(names, ", ")
}

// same is the condition that two rows are equal in the columns.
func same(one, other string, columns []Column) string {
	terms := make([]string, len(columns))
	for i, c := range columns {
		comparison := "="
		if c.MayBeEmpty {
			comparison = "is not distinct from"
		}
		terms[i] = fmt.Sprintf("%s.%s %s %s.%s", one, c.Name, comparison, other, c.Name)
	}
	return joined(terms)
}

// within is the condition that a row says nothing in the columns that the other does not say.
func within(one, other string, columns []Column) string {
	terms := make([]string, len(columns))
	for i, c := range columns {
		terms[i] = fmt.Sprintf("(%[1]s.%[3]s is null or %[1]s.%[3]s is not distinct from %[2]s.%[3]s)", one, other, c.Name)
	}
	return joined(terms)
}

// quote makes a text constant of our own words.
func quote(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }

func joined(terms []string) string {
	if len(terms) == 0 {
		return "true"
	}
	return strings.Join(terms, " and ")
}

// onKey is the condition that a row of the file, whose owner's name is worked out, and a stored one have one key.
func (k OfKind) onKey(row, stored string) string {
	condition := same(row, stored, k.Key)
	if k.Owner != "" && k.ByMoment {
		condition += " and " + row + ".of_record is not distinct from " + k.ofRecord(stored)
	}
	return condition
}

// knownAt is the moment by which a row is known, in words.
func (k OfKind) knownAt(row string) string {
	moment := fmt.Sprintf("moment_name(%[1]s.%[2]s, on_date(%[1]s.date_only, '%[2]s'))", row, k.At)
	if k.Stage == "" {
		return moment
	}
	return fmt.Sprintf("%s.%s || ' ' || %s", row, k.Stage, moment)
}

// ofRecord names the record that a row without a number belongs to, as far as its key goes.
func (k OfKind) ofRecord(row string) string {
	return fmt.Sprintf("case when %[1]s.%[2]s is null then coalesce(%[1]s.known_as, %[3]s || ' #1') end", row, k.Number, k.knownAt(row))
}

// digest is an MD5 over what a row says, by which it is known again for ever: a column that comes to the layout later
// changes nothing for the rows that do not have it.
func (k OfKind) digest(row string) string {
	parts := make([]string, len(k.Digested))
	for i, c := range k.Digested {
		parts[i] = fmt.Sprintf("'%[2]s=' || length(%[1]s.%[2]s::varchar) || ':' || %[1]s.%[2]s::varchar", row, c.Name)
	}
	return "md5(concat_ws(chr(31), " + strings.Join(parts, ", ") + "))"
}
