// Package queries holds the project's SQL, one question a file, embedded.
//
// A file is named by its path without the ending: "findings/uncured_glass". Files in schema/ that are numbered below 050 are
// statements that make tables, those below 100 macros, and those in schema/steps bring the tables of an older history to
// today's; those from 100 on, and all in findings/, are single selects whose views carry the name of the file (Views). The
// tables of records follow from package layout.
package queries

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"
)

//go:embed schema findings intake measures check
var files embed.FS

// SQL gives the text of the named file.
func SQL(name string) (string, error) {
	text, err := files.ReadFile(name + ".sql")
	if err != nil {
		return "", fmt.Errorf("no query named %q", name)
	}
	return string(text), nil
}

// List names the files of a folder in order.
func List(folder string) []string {
	matches, err := fs.Glob(files, folder+"/*.sql")
	if err != nil {
		panic(err) // the pattern is ours
	}
	names := make([]string, len(matches))
	for i, match := range matches {
		names[i] = strings.TrimSuffix(match, ".sql")
	}
	slices.Sort(names)
	return names
}

// Title is the first line of a file's header: what a row of the result is, in a sentence.
func Title(name string) (string, error) {
	text, err := SQL(name)
	if err != nil {
		return "", err
	}
	return HeaderOf(text).Title, nil
}

// A View is a shared shape: a select that is known to SQL by its name.
type View struct {
	Name  string // "tasks"
	Title string
	SQL   string // the select itself
}
