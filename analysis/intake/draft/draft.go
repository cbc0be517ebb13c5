// Package draft looks at another program's file, asks a person what the file does not tell, and drafts the mapping profile
// that reads it.
package draft

import (
	"cmp"
	"context"
	"os"
	"regexp"
	"slices"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A Draft is what a look at a foreign file suggests, and what a person must still say.
type Draft struct {
	File      string
	HeaderRow int        // 0: no row names the columns
	Taken     []Taken    // what the file tells, with the reason, in the order of the profile
	Questions []Question // what is open, the gravest first
	Unmapped  []string   // the file's columns that nothing was found for
	Notices   []string
	TOML      string // the profile; a record of which something required is open is commented out
}

// A Taken is a fact that the draft takes from the file or from an answer.
type Taken struct{ Key, Value, Reason string }

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
	said        *said
	columns     []*column
	rows        int64
	alike       bool     // sheets that are alike are all read
	others      []string // sheets with other tables, when it is open which is meant
	levels      []source.Level
	levelOf     []int // of a column of JSON
	isNested    bool
	kept        []keptRow
	ditto       []string // the texts of the file that stand for the cell above
	carried     []int    // columns whose empty cells take the value above
	source      profile.Source
	asked       map[string]bool
	cut         map[int]string // the marks at which a column is cut
	expressions map[string]*regexp.Regexp
	guesses     []guess // all, the surest first
	taken       []guess // each column and each target once
	records     []*record
}

// Read looks at a CSV, XLSX or JSON file and drafts a mapping profile for it, with what a person has answered. An answer that
// does not fit is a *WrongAnswer; a file that cannot be read a *source.Refusal.
func Read(ctx context.Context, file string, answers ...Answer) (Draft, error) {
	info, err := os.Stat(file)
	if err != nil {
		return Draft{}, source.Refuse(file, "cannot be read: there is no such file, or no right to read it", "check the name")
	}
	one, err := source.OneFile(file, info.Size())
	if err != nil {
		return Draft{}, err
	}
	if info.Size() == 0 {
		return Draft{}, source.Refuse(file, "is empty", "export it again")
	}
	d := drafting{Draft: &Draft{File: file}, asked: map[string]bool{}, cut: map[int]string{}, expressions: map[string]*regexp.Regexp{}}
	if d.said, err = readAnswers(answers); err != nil {
		return Draft{}, err
	}
	if err := d.look(ctx, one); err != nil {
		return Draft{}, err
	}
	d.HeaderRow = d.headerRow
	d.findDitto()
	d.match()
	if err := d.plan(); err != nil {
		return Draft{}, err
	}
	if err := d.render(); err != nil {
		return Draft{}, err
	}
	return *d.Draft, nil
}

// take lists what the file tells well enough.
func (d *drafting) take(key, value, reason string) {
	if !slices.ContainsFunc(d.Taken, func(t Taken) bool { return t.Key == key }) {
		d.Taken = append(d.Taken, Taken{key, value, reason})
	}
}

// match gives each column of the layout the file's column that suits it best; no column is taken twice.
func (d *drafting) match() {
	for i := range d.header {
		d.guesses = append(d.guesses, d.guessesFor(i)...)
	}
	slices.SortStableFunc(d.guesses, func(a, b guess) int { return cmp.Compare(b.score, a.score) })
	for _, g := range d.guesses {
		isTaken := slices.ContainsFunc(d.taken, func(other guess) bool {
			return other.at == g.at || (other.kind == g.kind && other.field == g.field && other.place == g.place)
		})
		if !isTaken {
			d.taken = append(d.taken, g)
		}
	}
	d.takeByValues()
	slices.SortStableFunc(d.taken, func(a, b guess) int { return cmp.Compare(a.at, b.at) })
}

// guessesFor lists what a column might be.
func (d *drafting) guessesFor(i int) []guess {
	if d.header[i] == "" {
		return nil
	}
	var guesses []guess
	variants := variantsOf(d.names[i], d.groups[i])
	for _, t := range targets {
		score, place := t.score(variants, d.values[i])
		if t.field == "vin" && len(d.values[i]) > 0 && share(d.values[i], source.LooksVINSpaced) > 0.9 {
			score = max(score, 0.95) // a column of 17 characters is a VIN, whatever its name
		}
		if score > 0.3 {
			guesses = append(guesses, guess{i, t.kind, t.field, place, "", score})
		}
	}
	if codes := share(d.values[i], source.LooksCode.MatchString); codes > 0.6 && len(guesses) == 0 {
		guesses = append(guesses, guess{i, "faults", "list", "", "", 0.75})
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

// found is the column taken for one of the layout; nil where there is none that is sure enough.
func (d *drafting) found(kind, field, place string) *guess {
	for i := range d.taken {
		if g := &d.taken[i]; g.kind == kind && g.field == field && g.place == place && g.score >= sure {
			return g
		}
	}
	return nil
}
