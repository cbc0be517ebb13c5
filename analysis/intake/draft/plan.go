package draft

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/layout"
)

// plan makes the records of the guesses and the answers, and asks what is left open.
func (d *drafting) plan() error {
	d.guessRecords()
	if err := d.applyAnswers(); err != nil {
		return err
	}
	if len(d.records) == 0 { // nothing is sure: at least the jobs are asked for
		d.addGuessed("jobs", "")
	}
	for _, r := range d.recordsOf("documents") {
		if p := r.fields["file_name"]; p != nil && len(p.pieces) == 1 && r.fields["kind"] == nil {
			r.fields["kind"] = d.documentKind(&guess{at: p.pieces[0].Place, score: p.score})
		}
	}
	d.settleMarks()
	if err := d.settleShared(); err != nil {
		return err
	}
	d.oneMoment()
	d.link()
	if err := d.settleRows(); err != nil {
		return err
	}
	if err := d.settleAttempts(); err != nil {
		return err
	}
	d.records = slices.DeleteFunc(d.records, func(r *record) bool { return r.dropped })
	d.settleSource()
	d.leaveOut()
	for _, r := range d.records {
		if err := d.settle(r); err != nil {
			return err
		}
	}
	d.askMissing()
	return nil
}

// telling are the fields that tell one record of a kind from another in a row.
var telling = map[string][]string{"jobs": {"opened_at", "reason"}, "glass": {"source", "position"}, "calibrations": {"system", "started_at", "outcome"},
	"measurements": {"quantity", "value"}, "scans": {"stage", "scanned_at"}, "faults": {"code"}, "road_tests": {"started_at", "outcome"},
	"documents": {"file_name"}, "equipment_checks": {"equipment", "checked_at"}, "actions": {"what", "taken_at"}}

// applyAnswers puts what a person said before the guesses.
func (d *drafting) applyAnswers() error {
	claimed := map[int]string{}
	given := map[string]map[int]map[string]*planned{}
	for key, value := range d.said.fields {
		if key.kind == "" {
			continue
		}
		p, err := d.answered(key, value)
		if err != nil {
			return err
		}
		if given[key.kind] == nil {
			given[key.kind] = map[int]map[string]*planned{}
		}
		if given[key.kind][key.n] == nil {
			given[key.kind][key.n] = map[string]*planned{}
		}
		given[key.kind][key.n][key.field] = p
		if p != nil && key.field != "job_no" && key.field != "shop" {
			for _, piece := range p.pieces {
				claimed[piece.Place] = key.kind
			}
		}
	}
	d.yield(given, claimed)
	for _, kind := range layout.KindNames() {
		for _, n := range slices.Sorted(maps.Keys(given[kind])) {
			d.answerRecord(kind, n, given[kind][n], claimed)
		}
	}
	for _, one := range d.said.rows {
		if n := max(1, one.n); one.kind != profile.None && d.recordOf(one.kind, n) == nil && !d.isDropped(one.kind, n) {
			d.records = append(d.records, newRecord(one.kind, n, ""))
		}
	}
	order := layout.KindNames()
	slices.SortStableFunc(d.records, func(a, b *record) int {
		if a.kind != b.kind {
			return slices.Index(order, a.kind.Name) - slices.Index(order, b.kind.Name)
		}
		return a.n - b.n
	})
	return nil
}

func (d *drafting) isDropped(kind string, n int) bool {
	return slices.ContainsFunc(d.records, func(r *record) bool { return r.kind.Name == kind && r.n == n && r.dropped })
}

// answered plans a field as a person said; nil where it is none.
func (d *drafting) answered(key fieldKey, value string) (*planned, error) {
	if value == profile.None {
		return nil, nil
	}
	if text, ok := strings.CutPrefix(value, "="); ok {
		p := constant(strings.TrimSpace(text), "answered")
		if c := layout.KindNamed(key.kind).Column(key.field); c.Type == layout.Word {
			p.Constant = listedWord(*c, p.Constant)
		}
		p.given = true
		return p, nil
	}
	pieces, err := profile.Pieces(value, d.header)
	if err != nil {
		return nil, &WrongAnswer{key.String(), value, err.Error() + "; write = before a text that is the value itself, or none"}
	}
	if c := layout.KindNamed(key.kind).Column(key.field); c != nil && c.Type != layout.Text && c.Type != layout.Word && c.Type != layout.TroubleCode {
		d.memberValues(pieces)
	}
	p := &planned{pieces: pieces, given: true, score: 1, why: "answered", origin: d.written(pieces)}
	p.Field.Column = p.origin
	return p, nil
}

// memberValues takes, where a number or a moment is wanted, the value of a JSON member for its name.
func (d *drafting) memberValues(pieces []profile.Piece) {
	for i, piece := range pieces {
		if name := d.header[piece.Place]; d.isNested && strings.HasSuffix(name, ".*") {
			if at := slices.Index(d.header, name+".value"); at >= 0 {
				pieces[i].Place = at
			}
		}
	}
}

// written is how the profile names where a value comes from.
func (d *drafting) written(pieces []profile.Piece) string {
	var texts []string
	for _, piece := range pieces {
		text := d.columnName(piece.Place)
		if piece.Part > 0 {
			text += fmt.Sprintf(", part %d", piece.Part)
		}
		if piece.On {
			text += " on"
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, " + ")
}

// yield takes guesses back that the answers speak against.
func (d *drafting) yield(given map[string]map[int]map[string]*planned, claimed map[int]string) {
	for _, r := range d.records {
		answers, mentioned := given[r.kind.Name]
		own := answers[r.n]
		told := r.tellingPlaces()
		if hasTelling(r.kind.Name, own) && len(told) > 0 && !shareAny(told, placesOf(own)) && r.place != "" {
			isFree := !slices.ContainsFunc(told, func(at int) bool { return claimed[at] != "" })
			if r.kind.Name == "measurements" && isFree {
				r.n = -1 // it is another one: numbered behind the answered ones
				continue
			}
			r.fields = map[string]*planned{}
		}
		for name, p := range r.fields {
			c := r.kind.Column(name)
			for _, piece := range p.pieces {
				by := claimed[piece.Place]
				if by != "" && (by == r.kind.Name || c.Required) && own[name] == nil {
					delete(r.fields, name)
				}
			}
		}
		if mentioned && own == nil && (len(r.tellingPlaces()) == 0 || !r.isSure(0.8)) {
			r.dropped = true
		}
	}
	if len(d.said.rows) > 0 {
		for _, r := range d.records {
			parent := map[string]string{"faults": "scans", "measurements": "calibrations"}[r.kind.Name]
			if !d.said.mentions(r.kind.Name, r.n) && (parent == "" || !d.said.mentions(parent, 1)) {
				r.dropped = true
			}
		}
	}
	d.records = slices.DeleteFunc(d.records, func(r *record) bool { return r.dropped })
	for _, r := range d.records {
		if r.n < 0 {
			r.n = 1
			for d.isTakenNumber(r, given[r.kind.Name]) {
				r.n++
			}
		}
	}
}

func (d *drafting) isTakenNumber(r *record, given map[int]map[string]*planned) bool {
	if _, answered := given[r.n]; answered {
		return true
	}
	return slices.ContainsFunc(d.records, func(other *record) bool { return other != r && other.kind == r.kind && other.n == r.n })
}

func (r *record) tellingPlaces() []int {
	var places []int
	for _, name := range telling[r.kind.Name] {
		if p := r.fields[name]; p != nil {
			for _, piece := range p.pieces {
				places = append(places, piece.Place)
			}
		}
	}
	return places
}

func hasTelling(kind string, fields map[string]*planned) bool {
	return slices.ContainsFunc(telling[kind], func(name string) bool { p := fields[name]; return p != nil && len(p.pieces) > 0 })
}

func placesOf(fields map[string]*planned) []int {
	var places []int
	for _, p := range fields {
		if p != nil {
			for _, piece := range p.pieces {
				places = append(places, piece.Place)
			}
		}
	}
	return places
}

func shareAny(one, other []int) bool {
	return slices.ContainsFunc(one, func(at int) bool { return slices.Contains(other, at) })
}

func (r *record) isSure(score float64) bool {
	for _, name := range telling[r.kind.Name] {
		if p := r.fields[name]; p != nil && p.score < score {
			return false
		}
	}
	return true
}

// answerRecord puts the answers about one record into it. A required field that is none means that there is no such record.
func (d *drafting) answerRecord(kind string, n int, fields map[string]*planned, claimed map[int]string) {
	r := d.recordOf(kind, n)
	isNew := r == nil
	if isNew {
		r = newRecord(kind, n, "")
		if n == 1 {
			d.fillGuessed(r, claimed)
		}
	}
	some := false
	for name, p := range fields {
		column := r.kind.Column(name)
		switch {
		case p != nil:
			r.fields[name] = p
			some = true
			if name == "quantity" {
				r.place = p.Constant
			}
		case column.Required:
			r.dropped = true
		default:
			r.fields[name] = &planned{given: true, why: "answered: none"}
		}
	}
	if isNew && (some || r.dropped) {
		d.records = append(d.records, r)
	}
}

// fillGuessed gives a record that only answers tell of what else was found for its kind, in columns that no answer names.
func (d *drafting) fillGuessed(r *record, claimed map[int]string) {
	for _, column := range r.kind.Columns {
		g := d.found(r.kind.Name, column.Name, "")
		if g == nil || claimed[g.at] != "" || column.Name == "shop" || column.Name == "job_no" {
			continue
		}
		r.fields[column.Name] = d.column(g)
	}
}

// isNothing tells whether a person said that the field stays empty.
func (p *planned) isNothing() bool { return p.given && len(p.pieces) == 0 && p.Constant == "" }
