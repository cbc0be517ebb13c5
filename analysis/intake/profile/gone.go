package profile

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// This file fits a profile to a source that has changed: what hangs on a column that is gone stays empty.

// A Gone is a column that a profile names and the source no longer has, and what hangs on it.
type Gone struct {
	Column string
	Empty  []string // fields that stay empty, as kind.column
	Left   []string // kinds of which a record is left out, for it cannot be told without the column
}

// Without is the profile for a source of this header, without what hangs on columns that are gone. A profile of which no
// record is left, or that tells by a gone column which rows count, comes back as it is: it is one for another file.
func (p *Profile) Without(header []string) (*Profile, []Gone) {
	lacking := p.Lacks(header)
	isGone := func(text string) bool { return slices.Contains(lacking, text) }
	tells := func(test RowTest) bool { return isGone(test.Column) }
	if len(lacking) == 0 || len(p.Source.HeaderLines()) == 0 || slices.ContainsFunc(p.Source.Skip, tells) {
		return p, nil
	}
	left := *p
	left.Records = nil
	gone := make([]Gone, len(lacking))
	for i, text := range lacking {
		gone[i].Column = text
	}
	note := func(text string) *Gone { return &gone[slices.Index(lacking, text)] }
	for _, record := range p.Records {
		if by := record.hangsOn(isGone); by != "" {
			note(by).Left = append(note(by).Left, record.Kind)
			continue
		}
		fields := maps.Clone(record.Fields)
		for _, name := range slices.Sorted(maps.Keys(fields)) {
			field := fields[name]
			if by := field.hangsOn(isGone); by != "" {
				note(by).Empty = append(note(by).Empty, record.Kind+"."+name)
				delete(fields, name)
				continue
			}
			if field.Either = slices.DeleteFunc(slices.Clone(field.Either), isGone); len(field.Either) == 1 {
				field.Column, field.Either = field.Either[0], nil
			}
			fields[name] = field
		}
		record.Fields = fields
		record.When = slices.DeleteFunc(slices.Clone(record.When), isGone)
		left.Records = append(left.Records, record)
	}
	if len(left.Records) == 0 {
		return p, nil
	}
	left.Source.FillDown = slices.DeleteFunc(slices.Clone(p.Source.FillDown), isGone)
	return &left, gone
}

// hangsOn is the gone column without which a record cannot be told; empty where there is none.
func (r RecordMapping) hangsOn(isGone func(string) bool) string {
	texts := append(slices.Clone(r.OneBy), r.Each.Column)
	for _, test := range r.Rows {
		texts = append(texts, test.Column)
	}
	if len(r.When) > 0 && (r.Unless != "" || !slices.ContainsFunc(r.When, func(text string) bool { return !isGone(text) })) {
		texts = append(texts, r.When[0])
	}
	if at := slices.IndexFunc(texts, isGone); at >= 0 {
		return texts[at]
	}
	for _, column := range layout.KindNamed(r.Kind).Columns {
		if by := r.Fields[column.Name].hangsOn(isGone); by != "" && column.Required {
			return by
		}
	}
	return ""
}

// hangsOn is the gone column without which a field has no value; empty where there is none.
func (f Field) hangsOn(isGone func(string) bool) string {
	texts := append([]string{f.Column, f.Unit.Column}, f.Columns...)
	if len(f.Either) > 0 && !slices.ContainsFunc(f.Either, func(text string) bool { return !isGone(text) }) {
		texts = append(texts, f.Either...)
	}
	if at := slices.IndexFunc(texts, isGone); at >= 0 {
		return texts[at]
	}
	return ""
}

// String says what becomes of what hangs on the column.
func (g Gone) String() string {
	text := fmt.Sprintf("the column %q that the profile names is gone", g.Column)
	if len(g.Empty) > 0 {
		text += "; it leaves empty: " + strings.Join(distinct(g.Empty), ", ")
	}
	if len(g.Left) > 0 {
		text += "; records left out, for they need it: " + strings.Join(distinct(g.Left), ", ")
	}
	return text
}

// distinct sorts texts and keeps each once.
func distinct(texts []string) []string {
	slices.Sort(texts)
	return slices.Compact(texts)
}
