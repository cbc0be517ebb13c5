package draft

import (
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/intake/profile"
)

// A counted is a text and in how many rows it stands.
type counted struct {
	text string
	rows int64
}

// textsOf gives what a field's words are looked up for: the different texts of its rows, in their order, the empty one too.
func (d *drafting) textsOf(r *record, p *planned) []counted {
	var all []counted
	at := map[string]int{}
	add := func(text string, rows int64) {
		text = d.extracted(r, p, text)
		key := strings.ToLower(text)
		if i, known := at[key]; known {
			all[i].rows += rows
			return
		}
		at[key] = len(all)
		all = append(all, counted{text, rows})
	}
	passes := d.passing(r)
	for _, row := range d.kept {
		if !passes(row) {
			continue
		}
		for _, text := range d.itemsIn(r, p, row) {
			add(text, 1)
		}
	}
	if len(p.pieces) == 1 && p.pieces[0].Part == 0 && len(r.rows) == 0 && r.each.Column == "" && int64(len(d.kept)) < d.rows {
		for _, text := range d.columns[p.pieces[0].Place].texts { // of a file too large to be kept
			if _, known := at[strings.ToLower(text)]; !known {
				add(text, d.columns[p.pieces[0].Place].counts[text])
			}
		}
	}
	return all
}

// itemsIn are the texts of a row that a field is taken from.
func (d *drafting) itemsIn(r *record, p *planned, row keptRow) []string {
	var parts []string
	for _, piece := range p.pieces {
		text := row.cells[piece.Place]
		if r.each.Column != "" && d.columnName(piece.Place) == r.each.Column {
			return d.eachItem(r, piece, text)
		}
		if piece.Part > 0 {
			text = d.partOf(piece, text)
		}
		if text != "" {
			parts = append(parts, text)
		}
	}
	return []string{strings.Join(parts, " ")}
}

func (d *drafting) eachItem(r *record, piece profile.Piece, text string) []string {
	var items []string
	for _, item := range splitItems(r.each, text) {
		if r.each.Except != "" && d.compiled(r.each.Except).MatchString(item) {
			continue
		}
		if piece.Part > 0 {
			item = d.partOf(piece, item)
		}
		items = append(items, item)
	}
	return items
}

func splitItems(each profile.EachItem, text string) []string {
	var items []string
	cut := strings.Split(text, each.Separator)
	if each.SeparatorMatches != "" {
		cut = regexp.MustCompile(each.SeparatorMatches).Split(text, -1)
	}
	for _, item := range cut {
		if item = strings.TrimSpace(item); item != "" {
			items = append(items, item)
		}
	}
	return items
}

func (d *drafting) partOf(piece profile.Piece, text string) string {
	match := d.compiled(profile.PartExpression(d.cutOf(piece.Place), piece.Part, piece.On)).FindStringSubmatch(text)
	if match == nil {
		return ""
	}
	return match[1]
}

// cutOf are the marks at which a column is cut into parts.
func (d *drafting) cutOf(at int) string {
	marks, known := d.cut[at]
	if !known {
		marks = d.findCut(at)
		d.cut[at] = marks
	}
	return marks
}

func (d *drafting) findCut(at int) string {
	values := d.values[at]
	for _, r := range d.records {
		if r.each.Column == d.columnName(at) {
			var items []string
			for _, value := range values {
				items = append(items, splitItems(r.each, value)...)
			}
			values = items
		}
	}
	return cutMarks(slices.DeleteFunc(slices.Clone(values), isNone))
}

// compiled is an expression, made ready once.
func (d *drafting) compiled(expression string) *regexp.Regexp {
	ready, known := d.expressions[expression]
	if !known {
		ready = regexp.MustCompile(expression)
		d.expressions[expression] = ready
	}
	return ready
}

// extracted is what a field's expression takes of a text, as the import takes it.
func (d *drafting) extracted(r *record, p *planned, text string) string {
	if p.Drop != "" && strings.HasPrefix(strings.ToLower(text), strings.ToLower(p.Drop)) {
		text = strings.TrimSpace(text[len(p.Drop):])
	}
	if p.Extract == "" {
		return text
	}
	expression := d.compiled(p.Extract)
	match := expression.FindStringSubmatch(text)
	if match != nil && match[min(1, expression.NumSubexp())] != "" {
		return match[min(1, expression.NumSubexp())]
	}
	for name, field := range r.fields {
		if column := r.kind.Column(name); field == p && profile.StaysWhole(*column) {
			return text
		}
	}
	return ""
}

// passing tells whether a row gives the record: it is of its level, passes its tests, and is none that is left out.
func (d *drafting) passing(r *record) func(keptRow) bool {
	level := d.levelFor(r)
	type test struct {
		at int
		profile.RowTest
	}
	var tests []test
	for _, one := range r.rows {
		if pieces, err := profile.Pieces(one.Column, d.header); err == nil {
			tests = append(tests, test{pieces[0].Place, one})
		}
	}
	return func(row keptRow) bool {
		if d.isNested && row.level != level || row.isLeft {
			return false
		}
		for _, one := range tests {
			text := strings.ToLower(row.cells[one.at])
			is := slices.ContainsFunc(one.Is, func(v string) bool { return strings.EqualFold(v, strings.TrimSpace(text)) })
			contains := slices.ContainsFunc(one.Contains, func(v string) bool { return strings.Contains(text, strings.ToLower(v)) })
			if !is && !contains {
				return false
			}
		}
		return true
	}
}

// levelFor is the level of JSON that a record's rows are of: the deepest of its columns.
func (d *drafting) levelFor(r *record) int {
	deepest := 0
	for _, p := range r.fields {
		for _, piece := range p.pieces {
			if d.isNested && d.levelOf[piece.Place] > 0 && d.isDeeper(d.levelOf[piece.Place], deepest) {
				deepest = d.levelOf[piece.Place]
			}
		}
	}
	return deepest
}

func (d *drafting) isDeeper(level, other int) bool {
	for at := level; at != 0; at = d.levels[at].Parent {
		if at == other {
			return true
		}
	}
	return other == 0
}
