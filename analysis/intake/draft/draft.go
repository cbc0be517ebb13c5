// Package draft looks at another program's file and drafts the mapping profile that reads it.
package draft

import (
	"cmp"
	"context"
	"os"
	"slices"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A Draft is what a look at a foreign file suggests.
type Draft struct {
	File      string
	HeaderRow int           // 0: no row names the columns
	Columns   []DraftColumn // those that a column of the layout was found for, in the file's order
	Unmapped  []string      // the file's columns that nothing was found for
	Missing   []string      // required columns of the layout without a source, as kind.column
	Notices   []string
	TOML      string // the profile; what is unsure is commented out, with its candidates
}

// A DraftColumn is a column of the file and what it seems to be.
type DraftColumn struct {
	Column      string
	Kind, Field string
	Confidence  float64 // 0 to 1
	Samples     []string
}

// sure is the confidence from which on a draft maps a column without asking.
const sure = 0.7

// A guess is a column of the file taken for one of the layout.
type guess struct {
	at          int // column of the file, from 0
	kind, field string
	place       string // pre or post, a system, or first and a system
	unit        string // of a measurement
	score       float64
}

// drafting is a draft in the making.
type drafting struct {
	*Draft
	*sample
	taken  []guess         // each column and each target once
	others map[int][]guess // what else a column might be
	used   map[int]bool    // columns that go along with another: the clock beside a date
}

// Read looks at a CSV or XLSX file and drafts a mapping profile for it.
func Read(ctx context.Context, file string) (Draft, error) {
	info, err := os.Stat(file)
	if err != nil {
		return Draft{}, source.Refuse(file, "cannot be read: there is no such file, or no right to read it", "check the name")
	}
	one, err := source.OneFile(file, info.Size())
	if err != nil {
		return Draft{}, err
	}
	rows, seen, err := headOf(one)
	if err != nil {
		return Draft{}, err
	}
	seen.find(rows)
	seen.remark()
	if len(seen.header) == 0 || len(seen.header) > source.MostColumns {
		return Draft{}, source.Refuse(file, "has no header within its first lines", "look at the file: some line must name the columns")
	}
	d := drafting{Draft: &Draft{File: file, HeaderRow: seen.headerRow, Notices: seen.notices}, sample: seen,
		others: map[int][]guess{}, used: map[int]bool{}}
	d.match()
	d.render()
	d.list()
	return *d.Draft, nil
}

// match gives each column of the layout the file's column that suits it best; no column is taken twice.
func (d *drafting) match() {
	var guesses []guess
	for i := range d.header {
		guesses = append(guesses, d.guessesFor(i)...)
	}
	slices.SortStableFunc(guesses, func(a, b guess) int { return cmp.Compare(b.score, a.score) })
	for _, g := range guesses {
		isTaken := slices.ContainsFunc(d.taken, func(other guess) bool {
			return other.at == g.at || (other.kind == g.kind && other.field == g.field && other.place == g.place)
		})
		if isTaken {
			d.others[g.at] = append(d.others[g.at], g)
			continue
		}
		d.taken = append(d.taken, g)
	}
	slices.SortStableFunc(d.taken, func(a, b guess) int { return cmp.Compare(a.at, b.at) })
}

// guessesFor lists what a column might be.
func (d *drafting) guessesFor(i int) []guess {
	if d.header[i] == "" {
		return nil
	}
	var guesses []guess
	for _, t := range targets {
		score, place := t.score(d.names[i], d.groups[i], d.values[i])
		if t.field == "vin" && len(d.values[i]) > 0 && share(d.values[i], source.LooksVINSpaced) > 0.9 {
			score = max(score, 0.95) // a column of 17 characters is a VIN, whatever its name
		}
		if score > 0.3 {
			guesses = append(guesses, guess{i, t.kind, t.field, place, "", score})
		}
	}
	if codes := share(d.values[i], source.LooksCode.MatchString); codes > 0.6 && len(guesses) == 0 {
		guesses = append(guesses, guess{i, "faults", "list", "pre", "", 0.5}, guess{i, "faults", "list", "post", "", 0.5})
	}
	guesses = append(guesses, d.measurementGuess(i)...)
	if d.headless != "" {
		guesses = append(guesses, d.namelessGuesses(i)...)
	}
	return guesses
}

// namelessGuesses are what a column of a file without a header might be by its values alone, never for sure.
func (d *drafting) namelessGuesses(i int) []guess {
	days := share(d.values[i], func(value string) bool { return shapeOf(value)&dayShape != 0 })
	words := share(d.values[i], func(value string) bool { return wordFor(*layout.KindNamed("jobs").Column("reason"), value) != "" })
	switch {
	case days > 0.8:
		return []guess{{i, "jobs", "opened_at", "", "", 0.5}, {i, "jobs", "closed_at", "", "", 0.45}}
	case words > 0.5:
		return []guess{{i, "jobs", "reason", "", "", 0.5}}
	}
	return nil
}

// list tells what was found, and what was not.
func (d *drafting) list() {
	for _, g := range d.taken {
		field := g.field
		if g.place != "" {
			field = g.place + " " + g.field
		}
		d.Columns = append(d.Columns, DraftColumn{d.header[g.at], g.kind, field, g.score, d.values[g.at][:min(3, len(d.values[g.at]))]})
		d.used[g.at] = true
	}
	for i, name := range d.header {
		if !d.used[i] && name != "" {
			d.Unmapped = append(d.Unmapped, name)
		}
	}
}
