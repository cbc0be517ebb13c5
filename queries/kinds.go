package queries

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"sync"
)

// A Kind is a kind of finding as the header of its file describes it. Everything that the program knows of a kind beyond
// its rows is in there.
type Kind struct {
	Name            string  // "uncured_glass"
	Title           string  // "Adhesive not ready"
	Means           string  // what it says to the shop
	Rule            string  // when it is raised
	Source          string  // of the rule
	Places          []Place // in the review, where it belongs first
	IsShare         bool    // a shop is told of it as a share of its jobs
	ClassIdentifies bool    // the class is part of a finding's identifier: one job can hold several by class
	Classes         []Class
	Severities      []Severity
	Decisions       []Decision
}

// A Place is a page of the review, without its ending, and how far down on it: the lowest comes first.
type Place struct {
	Page string
	At   int
}

// A Class is a word of a kind's column class, for a reader.
type Class struct {
	Name  string // "tenfold"
	Title string // "decimal point"
}

// A Severity is high, medium or low for the findings that its condition picks and none before it.
type Severity struct {
	Word string
	When Condition
}

// A Decision says why a person must look at the findings that it picks. Ranks go over all kinds: the lowest is what can
// do most harm to people on the road.
type Decision struct {
	Rank         int
	When         Condition
	Heading, Why string
}

// Kinds names the kinds of finding: one file each in findings/.
func Kinds() []string {
	names := List("findings")
	kinds := make([]string, len(names))
	for i, name := range names {
		kinds[i] = path.Base(name)
	}
	return kinds
}

// Catalogue describes the kinds of finding, in the order of their names.
var Catalogue = sync.OnceValue(func() []Kind {
	var catalogue []Kind
	for _, name := range Kinds() {
		kind, err := readKind(name, mustSQL("findings/"+name))
		if err != nil {
			panic(err) // the file is embedded, and TestCatalogue reads it first
		}
		catalogue = append(catalogue, kind)
	}
	return catalogue
})

// KindNamed describes one kind. A kind without a file, that an older program has decided on, is told by its name.
func KindNamed(name string) Kind {
	for _, kind := range Catalogue() {
		if kind.Name == name {
			return kind
		}
	}
	return Kind{Name: name, Title: inWords(name)}
}

// ClassesOf names the classes of the kinds named, all where none is, each once.
func ClassesOf(kinds []string) []string {
	var classes []string
	for _, kind := range Catalogue() {
		for _, class := range kind.Classes {
			if (len(kinds) == 0 || slices.Contains(kinds, kind.Name)) && !slices.Contains(classes, class.Name) {
				classes = append(classes, class.Name)
			}
		}
	}
	return classes
}

// OnPage gives the kinds that a page of the review shows, in their order there.
func OnPage(page string) []Kind {
	at := map[string]int{}
	for _, kind := range Catalogue() {
		for _, place := range kind.Places {
			if place.Page == page {
				at[kind.Name] = place.At
			}
		}
	}
	kinds := slices.DeleteFunc(slices.Clone(Catalogue()), func(k Kind) bool { return at[k.Name] == 0 })
	slices.SortFunc(kinds, func(one, other Kind) int { return at[one.Name] - at[other.Name] })
	return kinds
}

// Names lists kinds by name.
func Names(kinds []Kind) []string {
	names := make([]string, len(kinds))
	for i, kind := range kinds {
		names[i] = kind.Name
	}
	return names
}

// ClassTitle is a class of the kind for a reader; empty where there is none.
func (k Kind) ClassTitle(class string) string {
	for _, known := range k.Classes {
		if known.Name == class {
			return known.Title
		}
	}
	return strings.ReplaceAll(class, "_", " ")
}

// severitySQL is the severity of a row of the kind's view.
func (k Kind) severitySQL() string {
	var b strings.Builder
	b.WriteString("case")
	for _, s := range k.Severities {
		fmt.Fprintf(&b, " when %s then '%s'", s.When.sql(), s.Word)
	}
	return b.String() + " end"
}

func inWords(name string) string {
	words := strings.ReplaceAll(name, "_", " ")
	return strings.ToUpper(words[:min(1, len(words))]) + words[min(1, len(words)):]
}
