// Package page renders exhibits as pages that open from disk: a table and a drawing each, with words that stand for the
// drawing where it cannot be seen.
package page

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"strings"

	"plumbline/analysis/exhibit"
)

//go:embed templates/*.html
var templateFiles embed.FS

//go:embed assets/*
var assetFiles embed.FS

// Templates are those of exhibits and pages, for rooms that have parts of their own to put between them.
var Templates = template.Must(template.New("").Funcs(template.FuncMap{"withRoot": withRoot}).ParseFS(templateFiles, "templates/*.html"))

// Assets are the script and the stylesheet that pages need, with their licences, by their names below the pages' folder.
func Assets() fs.FS { return assetFiles }

// A Page is one file.
type Page struct {
	File     string // with slashes: comebacks.html, vehicles/….html
	Title    string
	Lead     []string // what the page is about, before any number
	Sections []Section
	Frame    Frame
}

// A Section is an exhibit, or markup that somebody else has made of a template.
type Section struct {
	Exhibit exhibit.Exhibit
	Markup  template.HTML
	Charts  bool // the markup has charts
}

// A Frame is what all pages of a folder have around them.
type Frame struct {
	Brand   string
	Of      string // what the pages are of: August 2026
	AsOf    string // below the title
	Notice  string
	Nav     []Link
	Caution string
	Made    string // the last line
}

// A Link leads to another page.
type Link struct{ File, Name string }

// Of turns exhibits into sections.
func Of(exhibits ...exhibit.Exhibit) []Section {
	sections := make([]Section, len(exhibits))
	for i, e := range exhibits {
		sections[i].Exhibit = e
	}
	return sections
}

// Render makes the text of a page.
func Render(p Page) ([]byte, error) {
	shown := struct {
		Page
		Root     string
		HasChart bool
		Blocks   []block
	}{Page: p, Root: strings.Repeat("../", strings.Count(p.File, "/"))}
	for _, s := range p.Sections {
		made := block{Markup: s.Markup}
		if s.Markup == "" {
			var err error
			if made, err = blockOf(p.name(), s.Exhibit); err != nil {
				return nil, fmt.Errorf("page %s: %w", p.File, err)
			}
		}
		shown.HasChart = shown.HasChart || s.Charts || made.hasChart()
		shown.Blocks = append(shown.Blocks, made)
	}
	var text bytes.Buffer
	if err := Templates.ExecuteTemplate(&text, "page.html", shown); err != nil {
		return nil, fmt.Errorf("page %s: %w", p.File, err)
	}
	return text.Bytes(), nil
}

// name is the file's name without its ending.
func (p Page) name() string { return strings.TrimSuffix(path.Base(p.File), ".html") }

// A rooted is something that a template shows, with the way back to the pages' folder for its links.
type rooted struct {
	Root string
	Show any
}

func withRoot(root string, show any) rooted { return rooted{root, show} }
