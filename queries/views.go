package queries

import (
	"path"
	"strings"
)

// Tables gives the statements that make the tables of an empty history that hold no records: the journal and its like.
func Tables() []string { return between("", "050") }

// Macros gives the statements that make the formulas that several shapes share, anew where they stand already.
func Macros() []string { return between("050", "100") }

// between gives the statements of the files of schema/ that are numbered from first up to last, last apart.
func between(first, last string) []string {
	var statements []string
	for _, name := range List("schema") {
		if number := path.Base(name); number >= first && number < last {
			statements = append(statements, mustSQL(name))
		}
	}
	return statements
}

// Views gives the shared shapes in the order in which they build on one another: those of schema/, then one a kind
// of finding, then the view that puts all findings together.
func Views() []View {
	var views []View
	for _, name := range List("schema") {
		if isShape(name) {
			_, plain, _ := strings.Cut(path.Base(name), "_")
			views = append(views, view(name, plain))
		}
	}
	for _, name := range List("findings") {
		views = append(views, view(name, path.Base(name)))
	}
	return append(views, raised(), view("measures/findings", "findings"))
}

// Shape gives the shared shape of a name that is known to be one.
func Shape(name string) View {
	for _, shape := range Views() {
		if shape.Name == name {
			return shape
		}
	}
	panic("no shape is named " + name)
}

// isShape tells a view from a statement by its number.
func isShape(name string) bool { return path.Base(name) >= "100" }

func view(name, plain string) View {
	title, err := Title(name)
	if err != nil {
		panic(err) // the name comes from List
	}
	return View{Name: plain, Title: title, SQL: mustSQL(name)}
}

// raised stacks the kinds of finding: each view gives only the columns that it has, the rest are null. What the header
// of a kind says of severity and identity becomes two columns.
func raised() View {
	var parts []string
	for _, kind := range Catalogue() {
		own := "select '" + kind.Name + "' as kind, " + kind.severitySQL() + " as severity, "
		if kind.ClassIdentifies {
			own += "class::varchar as identifying_class, "
		}
		parts = append(parts, own+"* from "+kind.Name)
	}
	return View{Name: "raised", Title: "Findings of all kinds as they were raised, without decisions.",
		SQL: strings.Join(parts, "\nunion all by name\n")}
}

func mustSQL(name string) string {
	text, err := SQL(name)
	if err != nil {
		panic(err)
	}
	return strings.TrimRight(strings.TrimSpace(text), ";")
}
