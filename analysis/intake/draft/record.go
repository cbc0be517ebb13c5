package draft

import (
	"fmt"
	"slices"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/layout"
)

// A record is what each row, or each item of a list in it, gives of one kind.
type record struct {
	kind    *layout.Kind
	n       int    // 1 for the first of its kind in a row
	place   string // what the guesses say that it is of
	fields  map[string]*planned
	each    profile.EachItem
	rows    []profile.RowTest
	oneBy   []string
	dropped bool     // a person said that there is no such record
	lacking []string // required columns without a source
}

// A planned is where a field of a record comes from.
type planned struct {
	profile.Field
	origin  string // as a person writes it; empty of a constant
	pieces  []profile.Piece
	given   bool // a person said so
	score   float64
	why     string
	follows *fieldKey // the field of another record that this is a copy of, whose words it has
}

func (r *record) key(field string) fieldKey { return fieldKey{r.kind.Name, r.n, field} }

func (r *record) field(name string) *planned { return r.fields[name] }

func (r *record) uses(at int) bool {
	for _, p := range r.fields {
		if slices.ContainsFunc(p.pieces, func(piece profile.Piece) bool { return piece.Place == at }) {
			return true
		}
	}
	return false
}

func newRecord(kind string, n int, place string) *record {
	return &record{kind: layout.KindNamed(kind), n: n, place: place, fields: map[string]*planned{}}
}

// column plans a field that comes from a column as a guess has it.
func (d *drafting) column(g *guess) *planned {
	why := "its name and values"
	if !slices.Contains(d.guesses, *g) {
		why = "its values, beside those of the other columns"
	}
	return &planned{Field: profile.Field{Column: d.columnName(g.at)}, origin: d.columnName(g.at), pieces: []profile.Piece{{Place: g.at}}, score: g.score,
		why: fmt.Sprintf("%s, %.0f %% sure", why, 100*g.score)}
}

func constant(value, why string) *planned {
	return &planned{Field: profile.Field{Constant: value}, score: 1, why: why}
}

// part plans a field that comes from a part of a column.
func (d *drafting) part(g *guess, n int, on bool, why string) *planned {
	p := d.column(g)
	p.origin += fmt.Sprintf(", part %d", n)
	if on {
		p.origin += " on"
	}
	p.Field.Column, p.why = p.origin, why
	p.pieces[0].Part, p.pieces[0].On = n, on
	return p
}

// recordOf finds the n-th record of a kind; nil where there is none.
func (d *drafting) recordOf(kind string, n int) *record {
	for _, r := range d.records {
		if r.kind.Name == kind && r.n == n && !r.dropped {
			return r
		}
	}
	return nil
}

func (d *drafting) recordsOf(kind string) []*record {
	var all []*record
	for _, r := range d.records {
		if r.kind.Name == kind && !r.dropped {
			all = append(all, r)
		}
	}
	return all
}
