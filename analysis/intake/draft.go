package intake

import (
	"cmp"
	"context"
	"os"
	"slices"
)

// A Draft is what a look at a foreign file suggests.
type Draft struct {
	File      string
	HeaderRow int
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

// a sample is the head of a foreign file.
type sample struct {
	header    []string
	headerRow int
	sheet     string
	values    [][]string // of each column, the first that are not empty
	notices   []string
}

const (
	sampledRows   = 500
	headerWithin  = 20
	sampledValues = 200
)

// DraftProfile looks at a CSV or XLSX file and drafts a mapping profile for it.
func DraftProfile(ctx context.Context, file string) (Draft, error) {
	info, err := os.Stat(file)
	if err != nil {
		return Draft{}, refuse(file, "cannot be read: there is no such file, or no right to read it", "check the name")
	}
	one, err := oneFile(file, info.Size())
	if err != nil {
		return Draft{}, err
	}
	rows, seen, err := headOf(ctx, one)
	if err != nil {
		return Draft{}, err
	}
	seen.find(rows)
	if len(seen.header) == 0 {
		return Draft{}, refuse(file, "has no header within its first lines", "look at the file")
	}
	draft := Draft{File: file, HeaderRow: seen.headerRow, Notices: seen.notices}
	draft.match(seen)
	draft.render(seen)
	return draft, nil
}

// find takes for the header the row, within the first, that has the most different cells with text, and collects the
// values below it.
func (s *sample) find(rows []numberedRow) {
	best, at := 0, -1
	for i, row := range rows[:min(headerWithin, len(rows))] {
		texts := map[string]bool{}
		for _, cell := range row.cells {
			if cell != "" && !looksNumber.MatchString(cell) && !looksDate.MatchString(cell) {
				texts[cell] = true
			}
		}
		if len(texts) > best {
			best, at = len(texts), i
		}
	}
	if at < 0 {
		return
	}
	s.header, s.headerRow = trimmedCells(rows[at].cells), rows[at].line
	s.values = make([][]string, len(s.header))
	for _, row := range rows[at+1:] {
		for i := range min(len(row.cells), len(s.header)) {
			if row.cells[i] != "" && len(s.values[i]) < sampledValues {
				s.values[i] = append(s.values[i], row.cells[i])
			}
		}
	}
}

// match gives each column of the layout the file's column that suits it best; no column is taken twice.
func (d *Draft) match(s *sample) {
	type pair struct {
		at     int
		target target
		score  float64
	}
	var pairs []pair
	for i, name := range s.header {
		for _, t := range targets {
			byName, byValue := t.nameScore(name), t.valueScore(s.values[i])
			score := byName * byValue
			if t.field == "vin" && byValue > 0.9 && len(s.values[i]) > 0 {
				score = max(score, 0.95) // a column of 17 characters is a VIN, whatever its name
			}
			if score > 0.3 {
				pairs = append(pairs, pair{i, t, score})
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return cmp.Compare(b.score, a.score) })
	takenColumn, takenTarget := map[int]bool{}, map[string]bool{}
	for _, p := range pairs {
		name := p.target.kind + "." + p.target.field
		if takenColumn[p.at] || takenTarget[name] {
			continue
		}
		takenColumn[p.at], takenTarget[name] = true, true
		d.Columns = append(d.Columns, DraftColumn{s.header[p.at], p.target.kind, p.target.field, p.score,
			s.values[p.at][:min(3, len(s.values[p.at]))]})
	}
	slices.SortStableFunc(d.Columns, func(a, b DraftColumn) int {
		return cmp.Compare(slices.Index(s.header, a.Column), slices.Index(s.header, b.Column))
	})
	for i, name := range s.header {
		if !takenColumn[i] && name != "" {
			d.Unmapped = append(d.Unmapped, name)
		}
	}
}
